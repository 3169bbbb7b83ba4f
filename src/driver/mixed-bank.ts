import { capacitorLoss, lossTangentAt, selfHeating } from '../physics/capacitor.ts';
import type { Capacitor, Rating, RatingCurve } from '../parts/part.ts';
import type { Bank, Design } from '../project/design.ts';
import type { Farad } from '../units/si.ts';
import type { Analysis, Case } from './analysis.ts';
import { classCapacitorTolerance } from './capacitor-tolerance.ts';
import { whenKnown } from './known.ts';
import { bankThermalResistance } from './bank-heat.ts';
import { capacitorResistanceAt } from './tank.ts';

/** Capacitors of one part in a bank of several: so many strings of them in parallel. */
export interface BankMember {
  readonly capacitor: Capacitor;
  readonly strings: number;
}

/** Strings of equal length, each of one part, in parallel. */
export interface MixedBank {
  readonly members: readonly BankMember[];
  readonly series: number;
  readonly cooling: Bank['cooling'];
}

function capacitanceOf({ ratings }: Capacitor): Farad {
  return ratings.capacitance?.value ?? 0;
}

/** What the strings of a mixed bank come to as one string: the sum of its capacitances. */
function wholeString({ members }: MixedBank): Farad {
  return members.reduce((sum, { capacitor, strings }) => sum + strings * capacitanceOf(capacitor), 0);
}

/** Nominal capacitance of a mixed bank. */
export function mixedCapacitance(mix: MixedBank): Farad {
  return wholeString(mix) / mix.series;
}

/**
 * One string that stands for all strings of a mixed bank in the circuit: capacitance and loss of the sum, the widest tolerance.
 *
 * @param mix  members with a capacitance each
 */
export function standInFor(mix: MixedBank): Bank {
  const { members, series, cooling } = mix;
  const [first] = members;
  if (first === undefined) throw new RangeError('a mixed bank needs a member');
  const { capacitor } = first;
  const rating = (value: number): Rating => ({ value, source: 'derived', where: capacitor.where });
  const tolerance = Math.max(...members.map(({ capacitor: { ratings } }) => ratings.tolerance?.value ?? classCapacitorTolerance));
  const lossTangent = meanLossTangent({ mix, rating });
  const whole: Capacitor = {
    kind: 'capacitors',
    name: 'mixed bank',
    where: capacitor.where,
    ratings: { capacitance: rating(wholeString(mix)), tolerance: rating(tolerance) },
    ...(lossTangent === undefined ? {} : { lossTangent }),
  };
  return { capacitor: whole, parallel: 1, series, cooling };
}

/** The members' loss tangents, each with its series resistance, in the mean of their capacitances; undefined where one is not given. */
function meanLossTangent({ mix, rating }: { mix: MixedBank; rating: (value: number) => Rating }): RatingCurve | undefined {
  const all = mix.members.flatMap(({ capacitor }) => capacitor.lossTangent?.points.map(({ frequency }) => frequency) ?? []);
  const above = [...new Set(all.filter((frequency) => frequency > 0))].toSorted((a, b) => a - b);
  if (mix.members.some(({ capacitor }) => capacitor.lossTangent === undefined)) return undefined;
  const points = (above.length > 0 ? above : [0]).map((frequency) => {
    const sum = mix.members.reduce((total, { capacitor, strings }) => {
      const curve = (capacitor.lossTangent?.points ?? []).map((point) => ({ ...point, lossTangent: point.rating.value }));
      const { lossTangent } = lossTangentAt({ points: curve, frequency: Math.max(frequency, 1) });
      const own = 2 * Math.PI * frequency * capacitanceOf(capacitor) * (capacitor.ratings.seriesResistance?.value ?? 0);
      return total + strings * capacitanceOf(capacitor) * (lossTangent + own);
    }, 0);
    return { frequency, rating: rating(sum / wholeString(mix)) };
  });
  return { points };
}

/**
 * An analysis of the whole bank as one member's capacitors see it: their share of the current, by capacitance, and their own loss.
 *
 * @param analysis  of a design with the stand-in
 * @param mix       its bank
 * @param member    one of its members
 */
export function shareOf({ analysis, mix, member }: { analysis: Analysis; mix: MixedBank; member: BankMember }): Analysis {
  const { capacitor } = member;
  const { series, cooling } = mix;
  const parallel = mix.members.reduce((sum, { strings }) => sum + strings, 0);
  const design: Design = { ...analysis.design, tank: { ...analysis.design.tank, bank: { capacitor, parallel, series, cooling } } };
  const share = capacitanceOf(capacitor) / wholeString(mix);
  const seen = (instance: Case): Case => {
    const { point } = instance;
    const { tank, running } = point;
    const unitCapacitance = point.corner.capacitor * capacitanceOf(capacitor);
    const frequency = running?.frequency ?? tank.resonance;
    const { capacitorResistance, inside } = capacitorResistanceAt({ capacitor, frequency, unitCapacitance });
    const own = { ...tank, unitCapacitance, capacitorResistance, lossTangentInside: inside };
    if (running === undefined) return { ...instance, point: { ...point, tank: own } };
    const currentPerCapacitor = (share * running.tankCurrentPeak) / Math.SQRT2;
    const lossPerCapacitor = whenKnown({ esr: capacitorResistance }, ({ esr }) =>
      capacitorLoss({ rmsCurrent: currentPerCapacitor, effectiveSeriesResistance: esr }),
    );
    const bankRise = whenKnown({ loss: lossPerCapacitor, thermal: bankThermalResistance(design) }, ({ loss, thermal }) =>
      selfHeating({ loss, thermalResistance: thermal }),
    );
    return { ...instance, point: { ...point, tank: own, running: { ...running, currentPerCapacitor, lossPerCapacitor, bankRise } } };
  };
  return { ...analysis, design, nominal: analysis.nominal.map(seen), corners: analysis.corners.map(seen) };
}
