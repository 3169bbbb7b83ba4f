import type { Analysis, Case } from '../driver/analysis.ts';

/** The load and corner with the highest drain peak at switch-on; the first where none is known. */
export function worstAtSwitchOn({ corners }: Analysis): Case | undefined {
  const peakOf = ({ switchOn }: Case): number => (switchOn !== undefined && 'drainPeak' in switchOn ? switchOn.drainPeak : -1);
  const candidates = corners.filter(({ switchOn }) => switchOn !== undefined);
  const [first] = candidates;
  return first && candidates.reduce((a, b) => (peakOf(b) > peakOf(a) ? b : a), first);
}
