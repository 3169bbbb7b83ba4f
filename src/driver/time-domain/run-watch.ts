import type { Ampere, Second, Volt } from '../../units/si.ts';
import { breakdownEnergyOf, type BreakdownEnergy } from './breakdown.ts';
import { place, type Circuit } from './circuit.ts';
import { crestsOf } from './crest.ts';
import type { Watched } from './equations.ts';
import type { Moment, Peaks } from './run.ts';

/** Swings below this are noise of the start. */
const leastSwing: Volt = 1;

/** Notes peaks and swings of a run, step by step. */
export class RunWatch {
  readonly moment: Moment & { time: Second };
  steps = 0;
  private readonly crests = crestsOf(6);
  private readonly seen = new Float64Array(6);
  private readonly watched: Watched;
  private readonly isBuffered: boolean;
  private readonly breaksDown: boolean;
  private readonly brokenA: BreakdownEnergy;
  private readonly brokenB: BreakdownEnergy;
  private highestGate: Volt = 0;
  private highestRail: Volt = 0;
  private highestSource: Ampere = 0;
  /** Of the half period that goes on: its highest voltage, and its sign. */
  private swing: Volt = 0;
  private side: Volt = 0;

  constructor({ circuit: { supply, breakdown }, watched, state }: { circuit: Circuit; watched: Watched; state: Float64Array }) {
    this.watched = watched;
    this.isBuffered = supply.buffer !== undefined;
    this.breaksDown = breakdown !== undefined;
    [this.brokenA, this.brokenB] = [breakdownEnergyOf(breakdown ?? Infinity), breakdownEnergyOf(breakdown ?? Infinity)];
    this.moment = { time: 0, state, swings: { count: 0, lastAt: 0, amplitude: 0 } };
  }

  see(time: Second, y: Float64Array): void {
    const { seen, watched } = this;
    const vA = y[place.drainA]!, vB = y[place.drainB]!; // prettier-ignore
    const jA = y[place.chokeA]!, jB = y[place.chokeB]!; // prettier-ignore
    const across = vA - vB;
    const size = Math.abs(across);
    seen[0] = vA;
    seen[1] = vB;
    seen[2] = size;
    seen[3] = jA + jB;
    seen[4] = jA;
    seen[5] = jB;
    this.crests.see(time, seen);
    this.highestGate = Math.max(this.highestGate, y[place.gateA]!, y[place.gateB]!);
    this.highestRail = Math.max(this.highestRail, watched.rail);
    this.highestSource = Math.max(this.highestSource, this.isBuffered ? y[place.lead]! : watched.supply);
    if (this.breaksDown) {
      this.brokenA.see(time, vA);
      this.brokenB.see(time, vB);
    }
    this.seeSwing(time, across, size);
    this.moment.time = time;
    this.steps++;
  }

  /** A half period ends where the tank voltage changes its sign. */
  private seeSwing(time: Second, across: Volt, size: Volt): void {
    if (across * this.side < 0) {
      if (this.swing >= leastSwing) {
        const { swings } = this.moment;
        swings.count++;
        swings.lastAt = time;
        swings.amplitude = this.swing;
      }
      this.swing = 0;
    }
    if (across !== 0) this.side = across;
    if (size > this.swing) this.swing = size;
  }

  peaks(): Peaks {
    const { highest, at } = this.crests;
    const higher = highest[0]! > highest[1]! ? 0 : 1;
    return {
      drain: highest[higher]!,
      drainAt: at[higher]!,
      tank: highest[2]!,
      gate: this.highestGate,
      supply: highest[3]!,
      source: this.highestSource,
      choke: Math.max(highest[4]!, highest[5]!),
      rail: this.highestRail,
      breakdownEnergy: this.brokenA.energy + this.brokenB.energy,
    };
  }
}
