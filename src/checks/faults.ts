import { analysisOf } from '../driver/analysis.ts';
import { coilOf } from '../driver/coil.ts';
import { DesignError } from '../driver/design-error.ts';
import { assumedAmbient } from '../driver/ambient.ts';
import { chokeResistanceOf } from '../driver/envelope-circuit.ts';
import { isKnown } from '../driver/known.ts';
import { switchModelOf } from '../driver/switch-model.ts';
import type { Choke } from '../parts/part.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Ratio } from '../units/si.ts';
import type { Verdict } from './judge.ts';
import type { Policies } from './policy.ts';
import type { Result } from './result.ts';
import { reviewOf } from './review.ts';

/** A check that a fault moves. */
export interface FaultEffect {
  readonly id: string;
  readonly before: Verdict;
  readonly after: Verdict;
  readonly marginBefore: Ratio | null;
  readonly marginAfter: Ratio | null;
}

/** What one fault does to a design. */
export interface FaultResult {
  readonly fault: string;
  /** Whether nothing fails that did not fail before; undefined where it cannot be told. */
  readonly survives: boolean | undefined;
  readonly effects: readonly FaultEffect[];
  /** What cannot be said by a check. */
  readonly note?: string;
}

/** A margin that moves by less is not worth a word. */
const leastChange: Ratio = 0.02;

/** Inductance that a saturated choke keeps. */
const leftOfSaturated: Ratio = 0.2;

/**
 * Single faults: one capacitor open, the load gone, the load shorted, the chokes saturated, one pull-up open. All in closed form.
 *
 * @param design    the project
 * @param policies  its levels
 * @param results   of the design without a fault
 */
export function faultsOf({
  design,
  policies,
  results,
}: {
  design: Design;
  policies: Policies;
  results: readonly Result[];
}): readonly FaultResult[] {
  const { bank } = design.tank;
  const changed = (fault: string, faulty: Design, note?: string): FaultResult => ({
    ...compared({ fault, faulty, policies, results }),
    ...(note === undefined ? {} : { note }),
  });
  const impedance = Math.sqrt(
    (coilOf(design).inductance * bank.series) / ((bank.capacitor.ratings.capacitance?.value ?? 1) * bank.parallel),
  );
  return [
    bank.parallel > 1
      ? changed(`one of ${bank.parallel} ${bank.series > 1 ? `strings of ${bank.series} capacitors` : 'capacitors'} open`, {
          ...design,
          tank: { ...design.tank, bank: { ...bank, parallel: bank.parallel - 1 } },
        })
      : {
          fault: bank.series > 1 ? 'the only string of capacitors open' : 'the only capacitor open',
          survives: false,
          effects: [],
          note: 'without a tank both switches stay on',
        },
    changed('load gone, coil alone', { ...design, loads: [{ name: 'coil alone' }] }),
    changed(
      'load shorted',
      { ...design, loads: [{ name: 'short', parallelResistance: 0.4 * impedance }] },
      'taken as four tenths of Z0 across the tank',
    ),
    changed(
      'chokes saturated',
      { ...design, chokes: { ...design.chokes, choke: saturated(design.chokes.choke) } },
      'both taken at a fifth of their inductance',
    ),
    pullUpOpen(design),
  ];
}

function saturated(choke: Choke): Choke {
  const { inductance } = choke.ratings;
  if (inductance === undefined) return choke;
  return { ...choke, ratings: { ...choke.ratings, inductance: { ...inductance, value: leftOfSaturated * inductance.value } } };
}

function compared({
  fault,
  faulty,
  policies,
  results,
}: {
  fault: string;
  faulty: Design;
  policies: Policies;
  results: readonly Result[];
}): FaultResult {
  try {
    const after = new Map(reviewOf({ analysis: analysisOf(faulty), policies }).map((result) => [result.id, result]));
    const effects = results.flatMap((before): FaultEffect[] => {
      const now = after.get(before.id);
      // the summary rests on the time domain, which is not run for a fault
      if (now === undefined || (before.id === 'latch-up' && now.verdict !== 'fail')) return [];
      const moved = before.margin !== null && now.margin !== null && Math.abs(now.margin - before.margin) > leastChange;
      if (now.verdict === before.verdict && !moved) return [];
      return [{ id: before.id, before: before.verdict, after: now.verdict, marginBefore: before.margin, marginAfter: now.margin }];
    });
    const failsNow = effects.some(({ before, after: verdict }) => verdict === 'fail' && before !== 'fail');
    const unknownNow = effects.some(({ before, after: verdict }) => verdict === 'not assessed' && before !== 'not assessed');
    return { fault, survives: failsNow ? false : unknownNow ? undefined : true, effects };
  } catch (error) {
    if (!(error instanceof DesignError)) throw error;
    return { fault, survives: undefined, effects: [], note: error.message };
  }
}

/** One switch never turns on: the other stays on and the supply stands across its choke. */
function pullUpOpen(design: Design): FaultResult {
  const fault = 'one pull-up open';
  const { supply, chokes, switches } = design;
  const on = switchModelOf(design).onResistance(298.15);
  const choke = chokes.arrangement === 'two' ? 2 * chokeResistanceOf(design) : chokeResistanceOf(design);
  const path = (supply.resistance ?? 0) + choke + (isKnown(on) ? on : 0);
  const unlimited = path > 0 ? supply.voltage / path : Infinity;
  const current = Math.min(unlimited, supply.currentLimit?.current ?? Infinity);
  if (!Number.isFinite(current))
    return { fault, survives: undefined, effects: [], note: 'one switch stays on; nothing that limits its current is given' };
  const bounds = [switches.mosfet.ratings.drainCurrent, chokes.choke.ratings.saturationCurrent].flatMap((rating) => rating?.value ?? []);
  const limit = switches.mosfet.ratings.junctionTemperature?.value;
  const [hot, thermal] = [switchModelOf(design).onResistance(limit ?? 423.15), switchModelOf(design).thermalResistance];
  const junction =
    isKnown(hot) && isKnown(thermal) ? (design.environment.ambient ?? assumedAmbient) + current ** 2 * hot * thermal : undefined;
  const isCool = limit === undefined || junction === undefined ? undefined : junction <= limit;
  const ampere = (value: number): string => formatQuantity({ value, dimension: 'current' });
  const bound = Math.min(...bounds);
  const note = `one switch stays on and carries ${ampere(current)} (${unlimited > current ? 'the limit of the supply' : 'set by resistance alone'})${bounds.length === 0 ? '' : `; switch and choke stand ${ampere(bound)}`}`;
  const warmth = junction === undefined ? '' : `; its junction comes to ${formatQuantity({ value: junction, dimension: 'temperature' })}`;
  const survives = bounds.length < 2 || isCool === undefined ? undefined : current <= bound && isCool;
  return { fault, survives, effects: [], note: `${note}${warmth}` };
}
