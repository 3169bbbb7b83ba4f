import type { Analysis } from '../driver/analysis.ts';
import type { Unknown } from '../driver/known.ts';
import type { TimedEvent } from '../driver/time-domain/outcome.ts';
import { timedAllowance } from '../driver/timed-allowance.ts';
import { supplyDip, type TimedEvents } from '../driver/timed-events.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { breakdownAt } from './breakdown.ts';
import type { Statement } from './supply-at-start.ts';
import { largerSupply } from './supply-limit.ts';

const outcomes = { latches: 'both switches latch', stalls: 'it stops', undecided: 'the outcome is undecided' } as const;

/** An event of the running driver, in words, and what it counts when the oscillation does not survive it. */
interface Happening {
  readonly key: keyof TimedEvents;
  readonly when: string;
  readonly verdict: 'fail' | 'warn';
}

const happenings: readonly Happening[] = [
  { key: 'loadRemoval', when: 'when it is taken away', verdict: 'fail' },
  { key: 'loadApplication', when: 'when it is put on', verdict: 'fail' },
  // a dip need not come, unlike a load
  { key: 'supplyDrop', when: `when the supply dips to ${100 * supplyDip.share} % for ${supplyDip.periods} periods`, verdict: 'warn' },
];

/** What the time domain says of what happens to a running driver, of each load. */
export function eventsInTime(analysis: Analysis): readonly Statement[] {
  const { design, events = [], starts = [] } = analysis;
  const told = events.flatMap((happened, index): readonly Statement[] => {
    const start = starts[index];
    // what does not start has said so already
    if (start === undefined || 'unknown' in start || start.outcome !== 'runs') return [];
    const load = design.loads[index]?.name ?? '';
    return [
      ...happenings.flatMap(({ key, when, verdict }) =>
        statement({ analysis, event: happened[key], words: `with ${load} ${when}`, verdict }),
      ),
      ...surgeAfterDip({ design, event: happened.supplyDrop, load }),
    ];
  });
  const isTold = told.length > 0 || events.length === 0 || starts.some((start) => 'unknown' in start || start.outcome !== 'runs');
  if (isTold) return told;
  const hasLoad = events.some(({ loadRemoval }) => loadRemoval !== undefined);
  return [
    {
      verdict: 'pass',
      words: () => `it runs on through ${hasLoad ? 'a load put on or taken away and ' : ''}a dip of the supply to a half`,
    },
  ];
}

/** A supply that returns lifts the drains as a switch-on does; it need not come, so past the rating it warns. */
function surgeAfterDip({
  design,
  event,
  load,
}: {
  design: Design;
  event: TimedEvent | Unknown | undefined;
  load: string;
}): readonly Statement[] {
  const rating = design.switches.mosfet.ratings.drainVoltage?.value;
  if (event === undefined || 'unknown' in event || event.outcome !== 'runs' || rating === undefined) return [];
  const peak = event.peaks.drain * (1 + timedAllowance.voltage);
  if (peak <= breakdownAt({ design, rated: rating })) return [];
  const volt = (value: number): string => formatQuantity({ value, dimension: 'voltage' });
  return [
    {
      verdict: 'warn',
      words: () => `with ${load} a dip of the supply to a half takes the drains to ${volt(peak)} of ${volt(rating)} when it returns`,
    },
  ];
}

function statement({
  analysis,
  event,
  words,
  verdict,
}: {
  analysis: Analysis;
  event: TimedEvent | Unknown | undefined;
  words: string;
  verdict: 'fail' | 'warn';
}): readonly Statement[] {
  if (event === undefined) return [];
  if ('unknown' in event) return [{ verdict: 'not assessed', words: () => `${words}: ${event.unknown}` }];
  const { outcome, why, needs } = event;
  if (outcome === 'runs') return [];
  return [
    {
      verdict: outcome === 'undecided' ? 'not assessed' : verdict,
      words: () => `${words}, ${outcomes[outcome]}: ${why}`,
      ...(needs === undefined ? {} : { remedy: () => largerSupply(analysis) }),
    },
  ];
}
