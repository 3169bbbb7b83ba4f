import type { Design } from '../project/design.ts';
import { cornerKeys, cornerName, cornersOf, isSameCorner, strongestCorner, type Corner } from './corner.ts';
import type { Transient } from './events.ts';
import type { Unknown } from './known.ts';
import { assumedAmbient } from './ambient.ts';
import { nominalPoint, operatingPoint, type OperatingPoint } from './operating-point.ts';
import { statesTransconductance } from './switch-model.ts';
import type { Ampere } from '../units/si.ts';
import type { Pair } from './time-domain/circuit-of.ts';
import { higherPeaks, type Peaks } from './time-domain/run.ts';
import { isGivingWay, pastLimit, starvedBy } from './time-domain/supply-limit.ts';
import { timedStart } from './time-domain/switch-on.ts';
import { judgedTransient, timedTransient } from './timed-events.ts';
import { mismatchRange, usualMismatch, usualPair } from './usual-pair.ts';

/** A start that the time domain has looked at with several pairs of switches. */
export interface SettledStart {
  readonly outcome: 'runs' | 'latches' | 'stalls' | 'undecided';
  /** In one sentence, with what made the difference where it is undecided. */
  readonly why: string;
  /** Largest peaks of the runs; undefined where it does not run. */
  readonly transient?: Transient;
  readonly corner: Corner;
  readonly runs: number;
  /** What a supply must give, where its limit is why the start is undecided. */
  readonly needs?: Ampere;
}

/** How many they are, for a text. */
export const startRuns = 'eleven runs';

/** Drain peaks, and choke currents, of runs that differ by more are undecided: the pair's mismatch decides, not the design. */
const agreement = 1.25;
const agreementOfCurrent = 2.5;
/** A data sheet's transconductance is a least one: switches may be so many times as strong. Practice. */
const strong = 1.5;

/**
 * The start of a design with one load, run in the time domain eleven times: with the usual mismatch hot and cold, with a fourth and with
 * two and a half times of it, with the supply low, with its current limit acting at once, which the other runs leave out, at the corner with
 * the highest choke current, and with stronger switches cold, hot, at nominal values and with the supply low. What latches or stalls there
 * does so; an outcome that any of the others changes is undecided.
 *
 * @param design  the project
 * @param point   the load at the corner with the highest peaks
 * @param weak    the load at a corner with the supply low
 * @param closedForm  what the envelope says of the start, to be shown beside it
 * @returns outcome and peaks; unknown where a rating is missing or nothing oscillates
 */
export function settledStart({
  design,
  point,
  weak,
  closedForm,
}: {
  design: Design;
  point: OperatingPoint;
  weak: OperatingPoint;
  closedForm?: Transient | undefined;
}): SettledStart | Unknown {
  const { supply, gates } = design;
  if (supply.riseTime === undefined && gates.pullUp.from === 'supply' && !gates.pullUp.hold) return { unknown: 'no supply.riseTime given' };
  const starved = starvedBy({ design, point });
  if (starved !== undefined) return starved;
  const hot = point.running?.electricalJunction ?? assumedAmbient;
  const cold = Math.min(design.environment.ambient ?? assumedAmbient, 298.15);
  const [narrow, wide] = mismatchRange;
  const nominal = nominalPoint({ design, load: point.load });
  const strongWords = `with thresholds ${wide * 100} % apart and switches of ${strong} times the stated strength`;
  const pair = (mismatch: number, strength: number, junction: number): Pair => ({ mismatch, strength, junction });
  const [main, ...variants]: readonly [Variant, ...Variant[]] = [
    { point, pair: pair(usualMismatch, 1, hot), words: 'when hot' },
    { point, pair: pair(usualMismatch, 1, cold), words: 'when cold' },
    { point, pair: pair(usualMismatch, 1, hot), words: 'with the supply at its limit', isLimited: true },
    { point: weak, pair: pair(usualMismatch, 1, cold), words: 'with the supply low' },
    { point, pair: pair(narrow, 1, hot), words: `with thresholds ${narrow * 100} % apart` },
    { point, pair: pair(wide, 1, hot), words: `with thresholds ${wide * 100} % apart` },
    // where such a pair latches lies in bands of the supply's voltage that no corner need hit
    { point, pair: pair(wide, strong, cold), words: strongWords },
    { point, pair: pair(wide, strong, hot), words: `hot, ${strongWords}` },
    { point: nominal, pair: pair(wide, strong, cold), words: `at nominal values, ${strongWords}` },
    { point: weak, pair: pair(wide, strong, cold), words: `with the supply low, ${strongWords}` },
  ];
  // a current that a running driver carries all the time is no sign of trouble
  const heaviest = Math.max(
    ...design.loads.map((load) => operatingPoint({ design, load, corner: point.corner }).running?.supplyCurrent ?? 0),
  );
  // output capacitors feed a start before any limit acts: the peaks are those of a supply without one
  const { currentLimit: _limit, ...unlimitedSupply } = supply;
  const unlimited: Design = { ...design, supply: unlimitedSupply };
  const first = timedStart({ design: unlimited, point: main.point, pair: main.pair });
  if ('unknown' in first) return first;
  const { corner } = point;
  if (first.outcome !== 'runs') return { outcome: first.outcome, why: first.why, corner, runs: 1 };
  const corners = cornersOf(design);
  const highestCurrent = operatingPoint({ design, load: point.load, corner: strongestCorner(corners) });
  const second = isSameCorner(highestCurrent.corner, corner)
    ? first
    : timedStart({ design: unlimited, point: highestCurrent, pair: usualPair(highestCurrent) });
  if ('unknown' in second) return second;
  if (second.outcome !== 'runs') {
    const where = cornerName({ corner: highestCurrent.corner, keys: cornerKeys });
    return { outcome: second.outcome, why: `${second.why} (${where})`, corner: highestCurrent.corner, runs: 2 };
  }
  let [highest, runs] = [higherPeaks(first.peaks, second.peaks), 2];
  for (const { point: other, pair: taken, words, isLimited = false } of variants) {
    // without a limit of the supply, or with one that is only held against what it gives, that run is the first one
    const isFirst = isLimited && (supply.currentLimit === undefined || isGivingWay(design));
    const run = isFirst ? first : timedStart({ design: isLimited ? design : unlimited, point: other, pair: taken });
    runs++;
    if ('unknown' in run) return run;
    if (run.outcome !== 'runs') return { outcome: 'undecided', why: `${words} it ${verbs[run.outcome]}`, corner, runs };
    if (run.peaks.drain > agreement * first.peaks.drain || run.peaks.supply > agreementOfCurrent * Math.max(first.peaks.supply, heaviest)) {
      const times = (value: number): string => value.toPrecision(2);
      const [volts, amperes] = [run.peaks.drain / first.peaks.drain, run.peaks.supply / first.peaks.supply];
      const why = `${words} the drains go ${times(volts)} times and the choke current ${times(amperes)} times as high`;
      return { outcome: 'undecided', why, corner, runs };
    }
    highest = higherPeaks(highest, run.peaks);
  }
  const past = pastLimit({ design, source: highest.source });
  if (past !== undefined) return { outcome: 'undecided', ...past, corner, runs };
  if (!statesTransconductance(design)) {
    return {
      outcome: 'undecided',
      why: `${design.switches.mosfet.name} gives no transconductance, which decides how the pair starts`,
      corner,
      runs,
    };
  }
  return { outcome: 'runs', why: first.why, transient: transientOf({ point, peaks: highest, closedForm }), corner, runs };
}

/** One of the runs. */
interface Variant {
  readonly point: OperatingPoint;
  readonly pair: Pair;
  readonly words: string;
  /** With the current limit of the supply acting at once. */
  readonly isLimited?: boolean;
}

const verbs = { latches: 'latches', stalls: 'does not oscillate', undecided: 'could not be followed to its end', runs: 'runs' } as const;

function transientOf({ point, peaks, closedForm }: { point: OperatingPoint; peaks: Peaks; closedForm: Transient | undefined }): Transient {
  const transient = timedTransient({ peaks, closedForm });
  return point.running === undefined ? transient : judgedTransient({ transient, running: point.running });
}
