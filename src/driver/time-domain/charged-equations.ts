import { junctionChargeOf } from '../../physics/junction-charge.ts';
import type { Volt } from '../../units/si.ts';
import { place, type Circuit } from './circuit.ts';
import { equationsOf, type Equations } from './equations.ts';

/** Nodes whose charge is followed, in the order of their states behind those of the circuit. */
const nodes = [place.drainA, place.drainB, place.gateA, place.gateB] as const;

/** Equations with charges, which follow from the voltages at the beginning of a run. */
export interface ChargedEquations extends Equations {
  /** Writes the charges that belong to the voltages of a state. */
  readonly settle: (state: Float64Array) => void;
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
  const base = equationsOf(circuit);
  const { count: n } = base;
  const N = n + nodes.length;
  const C = circuit.tank.capacitance;
  const { gateToSource } = circuit.capacitances;
  const gateToDrain = junctionChargeOf(overVoltage.gateToDrain);
  const drainToSource = junctionChargeOf(overVoltage.drainToSource);
  gateToDrain.at(0);
  drainToSource.at(0);
  const drainScale = 1 / (C + drainToSource.capacitance + gateToDrain.capacitance);
  const gateScale = 1 / (gateToSource + gateToDrain.capacitance);
  const scales = [drainScale, drainScale, gateScale, gateScale] as const;
  const baseJ = new Float64Array(n * n);

  const mass = new Float64Array(N * N);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) mass[i * N + j] = base.mass[i * n + j]!;
  nodes.forEach((node, k) => {
    mass.fill(0, node * N, node * N + N);
    mass[node * N + n + k] = 1 / scales[k]!;
  });

  /** Charge of the nodes of one switch over C0, and its derivatives where a matrix is given. */
  const side = (y: Float64Array, out: Float64Array, J: Float64Array | undefined, k: 0 | 1): void => {
    const [drain, gate, other] = [nodes[k], nodes[k + 2]!, nodes[1 - k]!];
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
  };

  const couples = Array.from({ length: N * N }, (_, at) => {
    const [i, j] = [Math.floor(at / N), at % N];
    if (i < n && j < n) return base.couples[i * n + j]!;
    // a charge follows from the voltages of its side, and the current into its node makes it
    const [node, k] = [nodes[Math.max(i, j) - n]!, Math.min(i, j)];
    return i === j || k === node || (i > j && (nodes as readonly number[]).includes(k));
  });
  return {
    count: N,
    mass,
    couples,
    order: [...nodes.map((_, k) => n + k), ...base.order],
    evaluate: (time, y, f, J) => {
      base.evaluate(time, y, f, J === undefined ? undefined : baseJ);
      if (J !== undefined) {
        for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) J[i * N + j] = baseJ[i * n + j]!;
      }
      side(y, f, J, 0);
      side(y, f, J, 1);
      for (let k = n; k < N; k++) f[k] = f[k]! - y[k]!;
    },
    byTime: base.byTime,
    isAtRest: base.isAtRest,
    watched: base.watched,
    settle: (state) => {
      side(state, state, undefined, 0);
      side(state, state, undefined, 1);
    },
  };
}
