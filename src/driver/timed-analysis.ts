import type { Design } from '../project/design.ts';
import type { Analysis, Case } from './analysis.ts';
import type { Transient } from './events.ts';
import { strongestCorner } from './corner.ts';
import type { Unknown } from './known.ts';
import type { OperatingPoint } from './operating-point.ts';
import { settledStart, type SettledStart } from './settled-start.ts';
import { startProbe } from './start-probe.ts';
import { timedDisturbance } from './time-domain/disturbance.ts';
import { starvedBy } from './time-domain/supply-limit.ts';
import { timedStart } from './time-domain/switch-on.ts';
import type { TimedEvent } from './time-domain/outcome.ts';
import { addsLoss, doesNotRun, judgedRemoval, timedEvents, timedTransient, type TimedEvents, type WantedEvents } from './timed-events.ts';
import { usualPair } from './usual-pair.ts';

/**
 * An analysis with its events run in the time domain: the start of every load and what happens to it when it runs, at the corner of
 * each load that has the highest peak, and where a pair latches first. They take the place of the envelope, whose other corners are then
 * not asked.
 *
 * @param analysis  in closed form
 * @param wanted    all, or what sets a peak at the worst corners, or what can fail there: nominal values then stay in closed form
 */
export function timedAnalysis(analysis: Analysis, wanted: WantedEvents = 'all'): Analysis {
  const { design, corners, nominal } = analysis;
  const starts: (SettledStart | Unknown)[] = [];
  const events: TimedEvents[] = [];
  const points: OperatingPoint[] = [];
  const strongPoints: OperatingPoint[] = [];
  const settled = design.loads.flatMap((load) => {
    const cases = corners.filter(({ point }) => point.load === load);
    const able = cases.filter(({ point }) => point.corner.supply >= 1);
    const worst = highest(able, 'switchOn');
    const worstRemoval = highest(able, 'loadRemoval');
    if (worst === undefined || worstRemoval === undefined) return cases;
    const weak = cases.reduce((a, b) => (b.point.corner.supply < a.point.corner.supply ? b : a));
    const start = settledStart({ design, point: worst.point, weak: weak.point, closedForm: known(worst.switchOn) });
    starts.push(start);
    points.push(worst.point);
    const strongest = strongestCorner(able.map(({ point }) => point.corner));
    const strong = able.find(({ point }) => point.corner === strongest)!.point;
    if (strong !== worst.point) strongPoints.push(strong);
    const happened = timedEvents({ design, point: worstRemoval.point, strong, wanted });
    events.push(happened);
    // the closed forms take any current for granted
    const starved = starvedBy({ design, point: worst.point });
    if (starved !== undefined) return cases.map((instance): Case => ({ ...instance, switchOn: starved, loadRemoval: starved }));
    return cases.map((instance): Case => {
      const switchOn = 'unknown' in start ? instance.switchOn : instance === worst ? (start.transient ?? notStarting(start)) : undefined;
      return { ...instance, switchOn, loadRemoval: removalOf({ design, instance, isWorst: instance === worstRemoval, happened }) };
    });
  });
  return {
    ...analysis,
    corners: settled,
    nominal: wanted === 'all' ? nominal.map((instance) => nominalInTime({ design, instance })) : nominal,
    starts,
    events,
    probe: startProbe({ design, points, strongPoints }),
    wanted,
  };
}

/** The judged load removal of a case: in the time domain at the worst one, else not asked. */
function removalOf({
  design,
  instance,
  isWorst,
  happened: { loadRemoval: event },
}: {
  design: Design;
  instance: Case;
  isWorst: boolean;
  happened: TimedEvents;
}): Case['loadRemoval'] {
  if (event === undefined || 'unknown' in event) return instance.loadRemoval;
  if (!isWorst) return undefined;
  return judgedRemoval({ design, point: instance.point, event, closedForm: known(instance.loadRemoval) });
}

/** A nominal case with its transients as they come out in the time domain. */
function nominalInTime({ design, instance }: { design: Design; instance: Case }): Case {
  const { point } = instance;
  const pair = usualPair(point);
  const seen = (event: TimedEvent | Unknown, closedForm: Case['switchOn']): Transient | Unknown => {
    if ('unknown' in event) return event;
    if (event.outcome !== 'runs') return { unknown: `it ${doesNotRun[event.outcome]}` };
    return timedTransient({ peaks: event.peaks, closedForm: known(closedForm) });
  };
  return {
    ...instance,
    switchOn: seen(timedStart({ design, point, pair }), instance.switchOn),
    loadRemoval: addsLoss(point.load)
      ? seen(timedDisturbance({ design, point, pair, disturbance: { kind: 'load removal' } }), instance.loadRemoval)
      : instance.loadRemoval,
  };
}

function known(transient: Case['switchOn']): Transient | undefined {
  return transient === undefined || 'unknown' in transient ? undefined : transient;
}

function notStarting({ outcome }: SettledStart): Unknown {
  const words = { latches: 'the start latches', stalls: 'it does not start', undecided: 'the start is undecided', runs: 'it runs' };
  return { unknown: `in the time domain ${words[outcome]}: see latch-up` };
}

/** The case whose drains go highest in a transient; where it is not known, in the other one. */
function highest(cases: readonly Case[], transient: 'switchOn' | 'loadRemoval'): Case | undefined {
  const [first] = cases;
  const peakOf = (instance: Case): number => known(instance[transient])?.drainPeak ?? known(instance.loadRemoval)?.drainPeak ?? 0;
  return first && cases.reduce((a, b) => (peakOf(b) > peakOf(a) ? b : a), first);
}
