import type { Ampere, Joule, Ohm, Second, Volt } from '../../units/si.ts';

/** Resistance of a drain in breakdown. */
const resistance: Ohm = 0.3;
export const breakdownConductance = 1 / resistance;

/** Current of a drain in breakdown: a straight line from the voltage that breaks down. */
export function breakdownCurrent(drain: Volt, breakdown: Volt): Ampere {
  return drain > breakdown ? (drain - breakdown) * breakdownConductance : 0;
}

/** Energy that a drain puts into breakdown, seen at steps. */
export interface BreakdownEnergy {
  energy: Joule;
  see(time: Second, drain: Volt): void;
}

/** Parts of a step: what is in breakdown is the tip of a crest, a few steps wide. */
const parts = 8;

/** Adds up the energy in breakdown, by the trapezoid over parts of each step, between which the drain follows the parabola through its last three points. */
export function breakdownEnergyOf(breakdown: Volt): BreakdownEnergy {
  return new ParabolicEnergy(breakdown);
}

class ParabolicEnergy implements BreakdownEnergy {
  energy: Joule = 0;
  private readonly breakdown: Volt;
  private t0: Second = NaN;
  private v0: Volt = NaN;
  private t1: Second = 0;
  private v1: Volt = 0;

  constructor(breakdown: Volt) {
    this.breakdown = breakdown;
  }

  see(t2: Second, v2: Volt): void {
    const { breakdown, t0, v0, t1, v1 } = this;
    if (v1 > breakdown || v2 > breakdown) {
      const step = t2 - t1;
      const rise = (v2 - v1) / step;
      const curvature = (rise - (v1 - v0) / (t1 - t0)) / (t2 - t0);
      let sum = (this.power(v1) + this.power(v2)) / 2;
      for (let i = 1; i < parts; i++) {
        const s = (i / parts) * step;
        sum += this.power(v1 + s * (rise + (Number.isFinite(curvature) ? curvature * (s - step) : 0)));
      }
      this.energy += (sum * step) / parts;
    }
    this.t0 = t1;
    this.v0 = v1;
    this.t1 = t2;
    this.v1 = v2;
  }

  private power(drain: Volt): number {
    return drain * breakdownCurrent(drain, this.breakdown);
  }
}
