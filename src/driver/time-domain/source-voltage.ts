import type { Second, Volt } from '../../units/si.ts';
import type { Circuit } from './circuit.ts';

/** The source's own voltage over time: linear from zero, with a dip; asked for at every step. */
export interface SourceVoltage {
  /** Once it is up. */
  readonly whole: Volt;
  at(time: Second): Volt;
  /** In V/s. */
  slopeAt(time: Second): number;
}

/** How the source of a circuit goes. */
export function sourceVoltageOf(circuit: Circuit): SourceVoltage {
  return new Ramp(circuit);
}

class Ramp implements SourceVoltage {
  readonly whole: Volt;
  private readonly rising: Second;
  private readonly upAt: Second;
  private readonly slope: number;
  private readonly dipFrom: Second;
  private readonly dipUntil: Second;
  private readonly dipVoltage: Volt;

  constructor({ supply: { voltage, riseTime, rising, dip } }: Circuit) {
    this.whole = voltage;
    this.rising = rising;
    this.upAt = riseTime - rising;
    this.slope = riseTime > 0 ? voltage / riseTime : 0;
    this.dipFrom = dip?.from ?? Infinity;
    this.dipUntil = dip?.until ?? -Infinity;
    this.dipVoltage = voltage * (dip?.share ?? 1);
  }

  at(time: Second): Volt {
    if (time >= this.dipFrom && time < this.dipUntil) return this.dipVoltage;
    return time < this.upAt ? this.slope * (time + this.rising) : this.whole;
  }

  slopeAt(time: Second): number {
    return time < this.upAt && !(time >= this.dipFrom && time < this.dipUntil) ? this.slope : 0;
  }
}
