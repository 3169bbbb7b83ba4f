import type { Ampere, Second, Volt } from '../../units/si.ts';
import { place, type Circuit } from './circuit.ts';
import { meanCurrent, type MeanCurrent } from './mean-current.ts';
import type { Measures } from './measures.ts';
import type { Outcome } from './outcome.ts';
import { runOf, type Moment, type Run } from './run.ts';
import type { Accuracy } from './solver.ts';
import { sourceVoltageOf, type SourceVoltage } from './source-voltage.ts';

/** Periods of the tank after which one that has not crossed zero does not swing. */
export const silence = 8;
/** Part of the running amplitude that counts as running. */
export const runningShare = 0.5;
/** What a mean current may lie above the running one, of the envelope's. */
export const spareCurrent = 0.05;
/** From one mean to the next, or from one half of a window to the other, a current that grows by more still rises. */
export const steadyCurrent = 1.05;

/** Periods of the envelope from the first swings to where the mean current is looked at, and those after which a start is given up. */
const crestPassed = 0.3;
const givenUp = 6;
/** Periods of the tank that a start is followed at least. */
const leastPeriods = 12;
/** Mean current over the running one with which a driver runs, at once and where it is steady. */
const fairCurrent = { atOnce: 1.05, steady: 1.25 } as const;
/** What is left of the envelope's ringing in the means of a rail that creeps up, of its highest current. */
const ringing = 0.02;
/** Supply current, over the highest that the envelope gives, past which a pair has latched that does not swing: not yet, or no more. */
const latchedCurrent = { notYet: 4, noMore: 1.25 } as const;

type Verdict = Outcome | 'settled';

/** How a stretch of a start ended: `settled` where it swings on a rail that has still far to go. */
export interface Stretch {
  readonly run: Run;
  readonly verdict: Verdict | undefined;
  /** Of both chokes, over periods of the envelope. */
  readonly mean: MeanCurrent;
}

/**
 * A stretch of a start, up to a verdict. That it swings does not make it run: a pair that leaks swings for a while with a current that
 * rises until it latches. So the mean current over a period of the envelope must be that of a running driver.
 */
export function stretch({
  circuit,
  measures,
  accuracy,
  mostSteps,
  initial,
  see,
}: {
  circuit: Circuit;
  measures: Measures;
  accuracy: Accuracy;
  mostSteps: number;
  initial: Float64Array;
  /** Called after every step. */
  see?: ((moment: Moment) => void) | undefined;
}): Stretch {
  const judge = new StretchJudge({ circuit, measures });
  const watch = (moment: Moment): boolean => {
    see?.(moment);
    judge.see(moment);
    return judge.verdict !== undefined;
  };
  const until = measures.railUp + givenUp * measures.envelopePeriod + 100 * measures.period;
  const run = runOf({ circuit, initial, until, accuracy, mostSteps, watch });
  return { run, verdict: judge.verdict, mean: judge.mean };
}

class StretchJudge {
  verdict: Verdict | undefined = undefined;
  readonly mean: MeanCurrent;
  private readonly source: SourceVoltage;
  private readonly railUp: Second;
  private readonly mayRest: boolean;
  private readonly amplitude: Volt;
  private readonly running: Ampere;
  private readonly expected: Ampere;
  /** What the bank takes while its voltage grows with the rail. */
  private readonly charging: Ampere;
  private readonly longestSilence: Second;
  private readonly passing: Second;
  private swingingFrom: Second = Infinity;
  private hasSwung = false;

  constructor({ circuit, measures }: { circuit: Circuit; measures: Measures }) {
    const { period, envelopePeriod, railUp, mayRest, amplitude, current, running } = measures;
    this.mean = meanCurrent({ window: Math.max(envelopePeriod, leastPeriods * period) });
    this.source = sourceVoltageOf(circuit);
    this.railUp = railUp;
    this.mayRest = mayRest;
    this.amplitude = amplitude;
    this.running = running;
    this.expected = current;
    this.charging = (Math.PI * amplitude * circuit.tank.capacitance) / railUp;
    this.longestSilence = silence * period;
    this.passing = crestPassed * envelopePeriod;
  }

  see({ time, state, swings }: Moment): void {
    const { mean, railUp, expected, running } = this;
    const rail = this.source.at(time) / this.source.whole;
    const isSilent = time - swings.lastAt >= this.longestSilence;
    const isSwinging = !isSilent && swings.amplitude > runningShare * rail * this.amplitude;
    this.hasSwung ||= isSwinging;
    this.swingingFrom = isSwinging ? Math.min(this.swingingFrom, time) : Infinity;
    const current = state[place.chokeA]! + state[place.chokeB]!;
    const isResting = this.mayRest && time < railUp;
    mean.see(time, current, (isResting ? this.swingingFrom : Math.max(railUp, this.swingingFrom)) + this.passing);
    if (isSwinging && mean.last !== undefined) {
      const spare = spareCurrent * expected;
      if (time >= railUp) {
        if (this.isFair(mean.last, rail * running, spare)) this.verdict = 'runs';
      } else if (isResting && this.isCalm(mean.last, fairCurrent.steady * rail * running + spare + this.charging)) this.verdict = 'settled';
    }
    if (isSilent && current > (this.hasSwung ? latchedCurrent.noMore : latchedCurrent.notYet) * expected) this.verdict = 'latches';
  }

  /** Whether the mean current is that of a running driver. */
  private isFair(last: Ampere, running: Ampere, spare: Ampere): boolean {
    const isSteady = this.mean.isSteady(steadyCurrent);
    const most = (isSteady ? fairCurrent.steady : fairCurrent.atOnce) * running + spare;
    return last <= most && (isSteady || this.mean.isSteadyWithin(steadyCurrent));
  }

  /** Whether the driver swings on a rising rail with the current of a running one, from one envelope period to the next. */
  private isCalm(last: Ampere, most: Ampere): boolean {
    const { before } = this.mean;
    return before !== undefined && last <= most && last <= steadyCurrent * before + ringing * this.expected;
  }
}
