import { junctionChargeOf, type JunctionCharge } from '../../physics/junction-charge.ts';
import type { Farad, Second, Volt } from '../../units/si.ts';
import { place, type Circuit } from './circuit.ts';
import { equationsOf } from './circuit-equations.ts';
import type { Equations } from './equations.ts';

/** Nodes whose charge is followed, in the order of their states behind those of the circuit. */
const nodes = [place.drainA, place.drainB, place.gateA, place.gateB] as const;

/** Equations with charges, which follow from the voltages at the beginning of a run. */
export interface ChargedEquations extends Equations {
  /** Writes the charges that belong to the voltages of a state. */
  settle(state: Float64Array): void;
}

/**
 * The equations of a circuit whose capacitances change with the voltage across them. The charge of a node follows from the currents
 * into it, its voltages from the charges: an index-1 differential-algebraic system with a constant, singular M.
 *
 *     u = q/C0 of each node, C0 its capacitance at 0 V;  C0·u′ = f, the currents of equationsOf
 *     drains   0 = (C·(vA − vB) + Qds(vA) + Qgd(vA − gA))/C0 − uA
 *     gates    0 = (Cgs·gA − Qgd(vA − gA))/C0 − uA
 *
 * No charge is lost or made by a step, however steep the capacitance: what flows into a node is what its charge grows by.
 *
 * @param circuit      values
 * @param overVoltage  capacitances at some voltages
 */
export function chargedEquationsOf(circuit: Circuit, overVoltage: NonNullable<Circuit['capacitances']['overVoltage']>): ChargedEquations {
  return new ChargedCircuit(circuit, overVoltage);
}

class ChargedCircuit implements ChargedEquations {
  readonly count: number;
  readonly mass: Float64Array;
  readonly couples: readonly boolean[];
  readonly order: readonly number[];
  readonly watched: Equations['watched'];
  private readonly base: Equations;
  private readonly baseJacobian: Float64Array;
  private readonly tankCapacitance: Farad;
  private readonly gateToSource: Farad;
  private readonly gateToDrain: JunctionCharge;
  private readonly drainToSource: JunctionCharge;
  /** 1/C0 of a drain and of a gate. */
  private readonly drainScale: number;
  private readonly gateScale: number;

  constructor(circuit: Circuit, overVoltage: NonNullable<Circuit['capacitances']['overVoltage']>) {
    this.base = equationsOf(circuit);
    const n = this.base.count;
    this.count = n + nodes.length;
    this.watched = this.base.watched;
    this.baseJacobian = new Float64Array(n * n);
    this.tankCapacitance = circuit.tank.capacitance;
    this.gateToSource = circuit.capacitances.gateToSource;
    this.gateToDrain = junctionChargeOf(overVoltage.gateToDrain);
    this.drainToSource = junctionChargeOf(overVoltage.drainToSource);
    this.gateToDrain.at(0);
    this.drainToSource.at(0);
    const perDrain = this.tankCapacitance + this.drainToSource.capacitance + this.gateToDrain.capacitance;
    const perGate = this.gateToSource + this.gateToDrain.capacitance;
    this.drainScale = 1 / perDrain;
    this.gateScale = 1 / perGate;
    this.mass = chargedMass({ base: this.base, perNode: [perDrain, perDrain, perGate, perGate] });
    this.couples = chargedCouples(this.base);
    this.order = [...nodes.map((_, k) => n + k), ...this.base.order];
  }

  evaluate(time: Second, y: Float64Array, f: Float64Array, J?: Float64Array): void {
    const { base, baseJacobian, count } = this;
    const n = base.count;
    base.evaluate(time, y, f, J === undefined ? undefined : baseJacobian);
    if (J !== undefined) {
      for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) J[i * count + j] = baseJacobian[i * n + j]!;
    }
    this.side(y, f, J, 0);
    this.side(y, f, J, 1);
    for (let k = n; k < count; k++) f[k] = f[k]! - y[k]!;
  }

  byTime(time: Second, state: Float64Array, out: Float64Array): void {
    this.base.byTime(time, state, out);
  }

  isAtRest(state: Float64Array): boolean {
    return this.base.isAtRest(state);
  }

  settle(state: Float64Array): void {
    this.side(state, state, undefined, 0);
    this.side(state, state, undefined, 1);
  }

  /** Charge of the nodes of one switch over C0, and its derivatives where a matrix is given. */
  private side(y: Float64Array, out: Float64Array, J: Float64Array | undefined, k: 0 | 1): void {
    const { count: N, tankCapacitance: C, gateToSource, gateToDrain, drainToSource, drainScale, gateScale } = this;
    const n = N - nodes.length;
    const drain = nodes[k], gate = nodes[k === 0 ? 2 : 3], other = nodes[k === 0 ? 1 : 0]; // prettier-ignore
    const v: Volt = y[drain]!, g: Volt = y[gate]!; // prettier-ignore
    gateToDrain.at(v - g);
    drainToSource.at(v);
    out[n + k] = (C * (v - y[other]!) + drainToSource.charge + gateToDrain.charge) * drainScale;
    out[n + k + 2] = (gateToSource * g - gateToDrain.charge) * gateScale;
    if (J === undefined) return;
    const rowD = (n + k) * N, rowG = (n + k + 2) * N; // prettier-ignore
    J[rowD + drain] = (C + drainToSource.capacitance + gateToDrain.capacitance) * drainScale;
    J[rowD + other] = -C * drainScale;
    J[rowD + gate] = -gateToDrain.capacitance * drainScale;
    J[rowD + n + k] = -1;
    J[rowG + gate] = (gateToSource + gateToDrain.capacitance) * gateScale;
    J[rowG + drain] = -gateToDrain.capacitance * gateScale;
    J[rowG + n + k + 2] = -1;
  }
}

/** M with the rows of the nodes in their charges. */
function chargedMass({ base: { count: n, mass }, perNode }: { base: Equations; perNode: readonly Farad[] }): Float64Array {
  const N = n + nodes.length;
  const M = new Float64Array(N * N);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) M[i * N + j] = mass[i * n + j]!;
  nodes.forEach((node, k) => {
    M.fill(0, node * N, node * N + N);
    M[node * N + n + k] = perNode[k]!;
  });
  return M;
}

function chargedCouples({ count: n, couples }: Equations): readonly boolean[] {
  const N = n + nodes.length;
  return Array.from({ length: N * N }, (_, at) => {
    const [i, j] = [Math.floor(at / N), at % N];
    if (i < n && j < n) return couples[i * n + j]!;
    // a charge follows from the voltages of its side, and the current into its node makes it
    const [node, k] = [nodes[Math.max(i, j) - n]!, Math.min(i, j)];
    return i === j || k === node || (i > j && (nodes as readonly number[]).includes(k));
  });
}
