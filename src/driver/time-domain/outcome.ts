import type { Ampere, Second } from '../../units/si.ts';
import { place, type Circuit } from './circuit.ts';
import type { Measures } from './measures.ts';
import type { Peaks } from './run.ts';
import { runningShare, silence, spareCurrent, steadyCurrent, type Stretch } from './stretch.ts';

/** What a start comes to. */
export type Outcome = 'runs' | 'latches' | 'stalls' | 'undecided';

/** An event in the time domain. */
export interface TimedEvent {
  readonly outcome: Outcome;
  readonly at: Second;
  readonly peaks: Peaks;
  readonly steps: number;
  /** In one sentence. */
  readonly why: string;
  /** What a supply must give, where its limit is why the outcome is undecided. */
  readonly needs?: Ampere;
}

/** What a last stretch comes to. */
export function finished({ circuit, measures, run, verdict, mean }: Stretch & { circuit: Circuit; measures: Measures }): TimedEvent {
  const decided = verdict === 'settled' ? undefined : verdict;
  const end = run.complete ? ended({ circuit, run, measures, mean }) : { outcome: 'undecided' as const, why: words.undecided };
  const { outcome, why } = decided === undefined ? end : { outcome: decided, why: words[decided] };
  return { outcome, at: run.endedAt, peaks: run.peaks, steps: run.steps, why };
}

const words: Readonly<Record<Outcome, string>> = {
  runs: 'it oscillates once the rail is up',
  latches: 'both switches conduct and the current through the chokes keeps rising',
  stalls: 'it does not oscillate: the gates hang between their threshold and a few volts above it',
  undecided: 'the run was longer than its budget of steps or did not converge',
};

/** Supply current over the running one from which a pair that hardly swings conducts through both switches. */
const crossConducting = 2.5;

/**
 * A run that ended without a verdict: a pair that conducts without swinging, or that swings or hardly swings and draws far too much, has
 * latched; one that swings with a steady current runs.
 */
function ended({ circuit, run, measures, mean }: Omit<Stretch, 'verdict'> & { circuit: Circuit; measures: Measures }): {
  outcome: Outcome;
  why: string;
} {
  const { state, swings, endedAt } = run;
  const current = state[place.chokeA]! + state[place.chokeB]!;
  const drawsTooMuch = current > crossConducting * measures.running;
  if (endedAt - swings.lastAt < silence * measures.period) {
    const times = `${((mean.last ?? current) / measures.running).toPrecision(2)} times its running current`;
    if (swings.amplitude > runningShare * measures.amplitude && mean.last !== undefined) {
      if (mean.last > crossConducting * measures.running + spareCurrent * measures.current)
        return { outcome: 'latches', why: `both switches conduct in part: it swings and draws ${times}` };
      if (mean.isSteady(steadyCurrent)) return { outcome: 'runs', why: words.runs };
      return { outcome: 'undecided', why: `it swings and draws ${times}, still rising when the run was ended` };
    }
    const swing = `it swings to ${Math.round((100 * swings.amplitude) / measures.amplitude)} % of its running voltage`;
    if (drawsTooMuch)
      return {
        outcome: 'latches',
        why: `both switches conduct in part: ${swing} and draws ${(current / measures.running).toPrecision(2)} times its running current`,
      };
    return { outcome: 'stalls', why: `${swing} and no further` };
  }
  const highest = Math.max(state[place.drainA]!, state[place.drainB]!);
  const lowestGate = Math.min(state[place.gateA]! - circuit.switches[0].threshold, state[place.gateB]! - circuit.switches[1].threshold);
  const isLatched = drawsTooMuch || (lowestGate > 0 && highest < circuit.switches[0].threshold);
  return isLatched ? { outcome: 'latches', why: words.latches } : { outcome: 'stalls', why: words.stalls };
}
