import type { Coulomb, Farad, Volt } from '../units/si.ts';
import { requirePositive, requireWithin } from './preconditions.ts';

/** A capacitance at a voltage. */
export interface CapacitancePoint {
  readonly voltage: Volt;
  readonly capacitance: Farad;
}

/** A charge that is asked for again and again: `at` sets it with its derivative, so that a solver allocates nothing. */
export interface JunctionCharge {
  charge: Coulomb;
  /** dQ/dV. */
  capacitance: Farad;
  at(voltage: Volt): void;
}

/** Built-in potential of a silicon junction. */
const builtIn: Volt = 0.7;

/** The law from one point to the next. */
interface Segment extends CapacitancePoint {
  /** V + φ, in V. */
  readonly potential: Volt;
  /** C·(V + φ). */
  readonly scale: Coulomb;
  readonly exponent: number;
  /** Charge at the point. */
  readonly charge: Coulomb;
}

/** ∫ of e^(p·t) over t from 0 to s. */
function growthOver(p: number, s: number): number {
  return Math.abs(p * s) < 1e-8 ? s * (1 + (p * s) / 2) : Math.expm1(p * s) / p;
}

function segmentsOf(points: readonly CapacitancePoint[]): readonly Segment[] {
  const segments: Segment[] = [];
  points.forEach(({ voltage, capacitance }, index) => {
    const potential = voltage + builtIn;
    const next = points[index + 1];
    const span = next === undefined ? 0 : Math.log((next.voltage + builtIn) / potential);
    const exponent = next === undefined || span === 0 ? 0 : -Math.log(next.capacitance / capacitance) / span;
    const before = segments.at(-1);
    const charge =
      before === undefined
        ? capacitance * voltage
        : before.charge + before.scale * growthOver(1 - before.exponent, Math.log(potential / before.potential));
    segments.push({ voltage, capacitance, potential, scale: capacitance * potential, exponent, charge });
  });
  return segments;
}

/**
 * Charge of a junction whose capacitance is known at some voltages: between two of them by the law of a junction whose exponent is fitted
 * to both, so that its charge is an exact integral of its capacitance.
 *
 *     C(V) = Ci·((V + φ)/(Vi + φ))^−m,  m = −ln(Ci+1/Ci) / ln((Vi+1 + φ)/(Vi + φ)),  φ = 0.7 V
 *     Q(V) = ∫ C dV from 0 V = Qi + Ci·(Vi + φ)·(((V + φ)/(Vi + φ))^(1 − m) − 1)/(1 − m)
 *
 * @param points  voltages, in V, from 0 up, ascending, and the capacitance at each, in F, above zero
 * @returns the charge; after `at(V)`, with V in V, its charge in C and its capacitance in F; below the lowest point, and below zero,
 *   C stays as it is there, above the highest too
 *
 * Valid for: any voltage; charge and capacitance are continuous, C never above the higher or below the lower of its two points.
 * Errors: RangeError without a point, for a voltage below zero or not above the one before, and a capacitance not above zero.
 * Source: capacitance of a p-n junction under reverse voltage, any text on semiconductor devices; φ of silicon from memory
 *
 * @example [junctionChargeOf([{ voltage: 0.3, capacitance: 2e-9 }, { voltage: 24.3, capacitance: 4e-10 }])].map((q) => (q.at(8.3), q.charge))[0] // 8.6e-9
 */
export function junctionChargeOf(points: readonly CapacitancePoint[]): JunctionCharge {
  if (points.length === 0) throw new RangeError('a junction needs its capacitance at one voltage at least');
  points.forEach(({ voltage, capacitance }, index) => {
    requireWithin({ named: { voltage }, from: 0 });
    requirePositive({ capacitance });
    if (index > 0 && voltage <= points[index - 1]!.voltage) throw new RangeError(`voltage ${voltage} is not above the one before`);
  });
  return new SegmentedCharge(segmentsOf(points));
}

class SegmentedCharge implements JunctionCharge {
  charge: Coulomb = 0;
  capacitance: Farad;
  private readonly segments: readonly Segment[];
  private readonly first: Segment;
  private readonly last: Segment;
  /** Index of the one asked for last: the next is often the same. */
  private index = 0;

  constructor(segments: readonly Segment[]) {
    this.segments = segments;
    this.first = segments[0]!;
    this.last = segments.at(-1)!;
    this.capacitance = this.first.capacitance;
  }

  at(voltage: Volt): void {
    const { segments, first, last } = this;
    if (voltage <= first.voltage || segments.length === 1) {
      this.capacitance = first.capacitance;
      this.charge = first.capacitance * voltage;
      return;
    }
    if (voltage >= last.voltage) {
      this.capacitance = last.capacitance;
      this.charge = last.charge + last.capacitance * (voltage - last.voltage);
      return;
    }
    while (voltage < segments[this.index]!.voltage) this.index--;
    while (voltage >= segments[this.index + 1]!.voltage) this.index++;
    const { potential, capacitance, scale, exponent, charge } = segments[this.index]!;
    const span = Math.log((voltage + builtIn) / potential);
    this.capacitance = capacitance * Math.exp(-exponent * span);
    this.charge = charge + scale * growthOver(1 - exponent, span);
  }
}
