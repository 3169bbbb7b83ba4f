import { junctionsOf, type Junctions } from '../../physics/junction-current.ts';
import { channelsOf, type Channels } from '../../physics/square-law-channel.ts';
import type { Ampere, Ohm, Second, Siemens, Volt } from '../../units/si.ts';
import { breakdownConductance, breakdownCurrent } from './breakdown.ts';
import { stateCount, type Circuit } from './circuit.ts';
import { couplingsOf } from './couplings.ts';
import type { Equations, Watched } from './equations.ts';
import { GateClamp, gateDiode } from './gate-clamp.ts';
import { massOf } from './mass.ts';
import { sourceOf, type Source } from './source.ts';
import { sourceVoltageOf, type SourceVoltage } from './source-voltage.ts';

/** Resistance that holds a gate down before its release. */
const holdConductance = 1;
/** How far the gates are below their threshold, and how still the tank, where nothing can grow. */
const rest = { gate: 0.1, tank: 0.5 } as const;

/**
 * The equations of a circuit.
 *
 *     drains   (C + Cds + Cgd)·vA′ − C·vB′ − Cgd·gA′ = jA − iL − (vA − vB)/R − i_ch(A) + i_body(A) − i_bd(A) + i_x(B)
 *     coil     L·iL′ = vA − vB − RL·iL
 *     chokes   Lc·jA′ = v_r − Rc·jA − vA;  one choke: Lc·j′ = v_r − Rc·j − (vA + vB)/2, half of j to each drain
 *     gates    (Cgs + Cgd)·gA′ − Cgd·vA′ = (v_g − gA)/Rg − i_x(A) − i_z(gA) − gA/Rpd;  i_x(A) from gate A into drain B
 *     rail     v_r = E(t) − rs·i, or Cb·v_r′ = i_s − i, Ls·i_s′ = E(t) − rs·i_s − v_r
 */
export function equationsOf(circuit: Circuit): Equations {
  return new CircuitEquations(circuit);
}

/** A class, and every value a field of it: what is called at every step is then the same for all circuits, and is compiled once. */
class CircuitEquations implements Equations {
  readonly count: number;
  readonly mass: Float64Array;
  readonly couples: readonly boolean[];
  readonly order: readonly number[];
  readonly watched: Watched = { supply: 0, rail: 0 };
  private readonly isTapped: boolean;
  private readonly isBuffered: boolean;
  private readonly onRail: boolean;
  private readonly channels: Channels;
  /** Body diodes, cross diodes and what conducts from source to gate, of A and of B. */
  private readonly diodes: Junctions;
  private readonly clamp: GateClamp;
  private readonly source: Source;
  private readonly sourceVoltage: SourceVoltage;
  /** Conductances of pull-up and pull-down. */
  private readonly gp: Siemens;
  private readonly gd: Siemens;
  private readonly releasedAt: Second;
  private readonly gateRail: Volt;
  private readonly load: Ohm;
  private readonly loadAfter: Ohm;
  private readonly changesAt: Second;
  private readonly coilResistance: Ohm;
  private readonly chokeResistance: Ohm;
  private readonly sourceResistance: Ohm;
  private readonly limitCurrent: Ampere;
  private readonly limitResistance: Ohm;
  private readonly breakdown: Volt;
  private readonly restA: Volt;
  private readonly restB: Volt;

  constructor(circuit: Circuit) {
    const { arrangement, supply, choke, tank, switches, bodyDiode, breakdown = Infinity, gates } = circuit;
    this.count = stateCount(circuit);
    this.mass = massOf(circuit);
    ({ couples: this.couples, order: this.order } = couplingsOf(circuit));
    this.isTapped = arrangement === 'centre-tap';
    this.isBuffered = supply.buffer !== undefined;
    this.onRail = gates.rail === undefined;
    this.channels = channelsOf(switches);
    this.diodes = junctionsOf([bodyDiode, bodyDiode, gates.crossDiode, gates.crossDiode, gateDiode, gateDiode]);
    this.clamp = new GateClamp(circuit);
    this.source = sourceOf(circuit);
    this.sourceVoltage = sourceVoltageOf(circuit);
    this.gp = 1 / gates.pullUp;
    this.gd = Number.isFinite(gates.pullDown) ? 1 / gates.pullDown : 0;
    this.releasedAt = gates.releasedAt;
    this.gateRail = gates.rail ?? 0;
    this.load = tank.load;
    this.loadAfter = tank.loadAfter;
    this.changesAt = tank.changesAt;
    this.coilResistance = tank.coilResistance;
    this.chokeResistance = choke.resistance;
    this.sourceResistance = supply.resistance;
    this.limitCurrent = supply.limit?.current ?? Infinity;
    this.limitResistance = supply.limit?.resistance ?? 0;
    this.breakdown = breakdown;
    this.restA = switches[0].threshold - rest.gate;
    this.restB = switches[1].threshold - rest.gate;
  }

  evaluate(time: Second, y: Float64Array, f: Float64Array, J?: Float64Array): void {
    const { isTapped, isBuffered, onRail, gp, source, watched, channels, diodes, clamp, breakdown, chokeResistance } = this;
    const vA = y[0]!, vB = y[1]!, iL = y[2]!, jA = y[3]!, jB = y[4]!, gA = y[5]!, gB = y[6]!; // prettier-ignore
    const E = this.sourceVoltage.at(time);
    const j = isTapped ? jA : jA + jB;
    if (!isBuffered) source.at(E, j, gA + gB);
    const rail = isBuffered ? y[7]! : source.rail;
    const feed = onRail ? rail : this.gateRail;
    const pA = (feed - gA) * gp, pB = (feed - gB) * gp; // prettier-ignore
    watched.rail = rail;
    watched.supply = j + (onRail ? pA + pB : 0);

    channels.gates[0] = gA;
    channels.gates[1] = gB;
    channels.drains[0] = vA;
    channels.drains[1] = vB;
    channels.update();
    const { voltages, currents } = diodes;
    voltages[0] = -vA;
    voltages[1] = -vB;
    voltages[2] = gA - vB;
    voltages[3] = gB - vA;
    voltages[4] = -gA;
    voltages[5] = -gB;
    diodes.update();
    const xA = currents[2]!, xB = currents[3]!; // prettier-ignore
    const hold = this.holdAt(time);

    const iR = (vA - vB) / this.loadAt(time);
    const inA = isTapped ? jA / 2 : jA, inB = isTapped ? jA / 2 : jB; // prettier-ignore
    f[0] = inA - iL - iR - channels.currents[0]! + currents[0]! - breakdownCurrent(vA, breakdown) + xB;
    f[1] = inB + iL + iR - channels.currents[1]! + currents[1]! - breakdownCurrent(vB, breakdown) + xA;
    f[2] = vA - vB - this.coilResistance * iL;
    f[3] = rail - chokeResistance * jA - (isTapped ? (vA + vB) / 2 : vA);
    f[4] = isTapped ? -jB : rail - chokeResistance * jB - vB;
    f[5] = pA - xA - clamp.current(gA) + currents[4]! - hold * gA;
    f[6] = pB - xB - clamp.current(gB) + currents[5]! - hold * gB;
    if (isBuffered) {
      f[7] = y[8]! - watched.supply;
      f[8] = E - this.sourceResistance * y[8]! - rail;
      if (y[8]! > this.limitCurrent) f[8] -= this.limitResistance * (y[8]! - this.limitCurrent);
    }
    if (J !== undefined) this.linearise(time, y, J);
  }

  /** ∂f/∂y at the state of the last evaluation. */
  private linearise(time: Second, y: Float64Array, J: Float64Array): void {
    const { isTapped, isBuffered, onRail, gp, source, channels, clamp, breakdown, chokeResistance, count: n } = this;
    const { conductances } = this.diodes;
    const g = 1 / this.loadAt(time);
    const byChoke = isBuffered ? 0 : source.byChoke, byGate = isBuffered ? 0 : source.byGate; // prettier-ignore
    const zA = y[0]! > breakdown ? breakdownConductance : 0, zB = y[1]! > breakdown ? breakdownConductance : 0; // prettier-ignore
    const xA = conductances[2]!, xB = conductances[3]!; // prettier-ignore
    const cA = clamp.conductance(y[5]!) + conductances[4]!, cB = clamp.conductance(y[6]!) + conductances[5]!; // prettier-ignore
    const hold = this.holdAt(time);
    const share = isTapped ? 0.5 : 1;
    J[0] = -g - channels.byDrain[0]! - conductances[0]! - zA - xB;
    J[1] = g;
    J[2] = -1;
    J[3] = share;
    J[5] = -channels.byGate[0]!;
    J[6] = xB;
    J[n] = g;
    J[n + 1] = -g - channels.byDrain[1]! - conductances[1]! - zB - xA;
    J[n + 2] = 1;
    J[n + (isTapped ? 3 : 4)] = share;
    J[n + 5] = xA;
    J[n + 6] = -channels.byGate[1]!;
    J[2 * n] = 1;
    J[2 * n + 1] = -1;
    J[2 * n + 2] = -this.coilResistance;
    const r3 = 3 * n, r4 = 4 * n, r5 = 5 * n, r6 = 6 * n; // prettier-ignore
    J[r3] = isTapped ? -0.5 : -1;
    if (isTapped) J[r3 + 1] = -0.5;
    J[r3 + 3] = byChoke - chokeResistance;
    if (!isTapped) J[r3 + 4] = byChoke;
    J[r3 + 5] = byGate;
    J[r3 + 6] = byGate;
    if (isTapped) J[r4 + 4] = -1;
    else {
      J[r4 + 1] = -1;
      J[r4 + 3] = byChoke;
      J[r4 + 4] = byChoke - chokeResistance;
      J[r4 + 5] = byGate;
      J[r4 + 6] = byGate;
    }
    const feedByChoke = onRail ? byChoke * gp : 0, feedByGate = onRail ? byGate * gp : 0; // prettier-ignore
    J[r5 + 1] = xA;
    J[r5 + 3] = feedByChoke;
    J[r5 + 5] = feedByGate - gp - xA - cA - hold;
    J[r5 + 6] = feedByGate;
    J[r6] = xB;
    J[r6 + 3] = feedByChoke;
    J[r6 + 5] = feedByGate;
    J[r6 + 6] = feedByGate - gp - xB - cB - hold;
    if (!isTapped) {
      J[r5 + 4] = feedByChoke;
      J[r6 + 4] = feedByChoke;
    }
    if (!isBuffered) return;
    const r7 = 7 * n, r8 = 8 * n; // prettier-ignore
    J[r3 + 7] = 1;
    if (!isTapped) J[r4 + 7] = 1;
    J[r7 + 3] = -1;
    if (!isTapped) J[r7 + 4] = -1;
    J[r7 + 8] = 1;
    if (onRail) {
      J[r5 + 7] = gp;
      J[r6 + 7] = gp;
      J[r7 + 5] = gp;
      J[r7 + 6] = gp;
      J[r7 + 7] = -2 * gp;
    }
    J[r8 + 7] = -1;
    J[r8 + 8] = -this.sourceResistance - (y[8]! > this.limitCurrent ? this.limitResistance : 0);
  }

  byTime(time: Second, y: Float64Array, out: Float64Array): void {
    const { isTapped, source } = this;
    out.fill(0);
    const slope = this.sourceVoltage.slopeAt(time);
    if (slope === 0) return;
    if (this.isBuffered) {
      out[8] = slope;
      return;
    }
    source.at(this.sourceVoltage.at(time), isTapped ? y[3]! : y[3]! + y[4]!, y[5]! + y[6]!);
    out[3] = source.bySource * slope;
    if (!isTapped) out[4] = out[3];
    if (this.onRail) out[5] = out[6] = out[3] * this.gp;
  }

  isAtRest(y: Float64Array): boolean {
    return y[5]! < this.restA && y[6]! < this.restB && Math.abs(y[0]! - y[1]!) < rest.tank;
  }

  private loadAt(time: Second): Ohm {
    return time < this.changesAt ? this.load : this.loadAfter;
  }

  private holdAt(time: Second): Siemens {
    return this.gd + (time < this.releasedAt ? holdConductance : 0);
  }
}
