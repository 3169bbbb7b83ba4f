import type { Analysis, Case } from '../driver/analysis.ts';
import { isSameCorner } from '../driver/corner.ts';
import type { Unknown } from '../driver/known.ts';
import type { SettledStart } from '../driver/settled-start.ts';
import type { Load } from '../project/design.ts';

/** The load and corner with the highest drain peak at switch-on; the first where none is known. */
export function worstAtSwitchOn({ corners }: Pick<Analysis, 'corners'>): Case | undefined {
  const peakOf = ({ switchOn }: Case): number => (switchOn !== undefined && 'drainPeak' in switchOn ? switchOn.drainPeak : -1);
  const candidates = corners.filter(({ switchOn }) => switchOn !== undefined);
  const [first] = candidates;
  return first && candidates.reduce((a, b) => (peakOf(b) > peakOf(a) ? b : a), first);
}

/** The same of one load. */
export function worstWithLoad({ corners, load }: { corners: readonly Case[]; load: Load }): Case | undefined {
  return worstAtSwitchOn({ corners: corners.filter(({ point }) => point.load === load) });
}

/** Loads whose starts are like these decide what is said of all, the first kind before the others. */
const decisive: readonly ((start: SettledStart | Unknown) => boolean)[] = [
  (start) => 'unknown' in start,
  (start) => 'outcome' in start && (start.outcome === 'latches' || start.outcome === 'stalls'),
  (start) => 'outcome' in start && start.outcome === 'undecided',
];

/**
 * The load and corner whose start decides: in the time domain one that is not known, does not run or is undecided, at the corner where it
 * was seen; with the envelope one that does not oscillate; else the highest drain peak.
 */
export function decisiveStart({ design, corners, starts }: Analysis): Case | undefined {
  const worst = design.loads.map((load) => worstWithLoad({ corners, load }));
  if (starts === undefined)
    return worst.find((instance) => instance !== undefined && instance.point.running === undefined) ?? worstAtSwitchOn({ corners });
  for (const decides of decisive) {
    const index = starts.findIndex(decides);
    const [start, load] = [starts[index], design.loads[index]];
    if (start === undefined) continue;
    const seen =
      'corner' in start ? corners.find(({ point }) => point.load === load && isSameCorner(point.corner, start.corner)) : undefined;
    return seen ?? worst[index];
  }
  return worstAtSwitchOn({ corners });
}
