import { junctionOf } from '../../physics/junction-current.ts';
import { channelOf } from '../../physics/square-law-channel.ts';
import type { Second } from '../../units/si.ts';
import { breakdownConductance, breakdownCurrent } from './breakdown.ts';
import { sourceSlope, sourceVoltage, stateCount, type Circuit } from './circuit.ts';
import { couplingsOf, type Couplings } from './couplings.ts';
import { gateClamp } from './gate-clamp.ts';
import { massOf } from './mass.ts';
import { sourceOf } from './source.ts';

/** The circuit as M·y′ = f(t, y). Matrices are flat, row by row. */
export interface Equations extends Couplings {
  readonly count: number;
  /** M: capacitances and inductances. */
  readonly mass: Float64Array;
  /** Writes f, and ∂f/∂y where a matrix is given: the places that couple, the others are left as they are. */
  readonly evaluate: (time: Second, state: Float64Array, f: Float64Array, jacobian?: Float64Array) => void;
  /** Writes ∂f/∂t: only the source moves of itself. */
  readonly byTime: (time: Second, state: Float64Array, out: Float64Array) => void;
  /** Whether the tank is still and both channels are off by a margin: nothing there can grow. */
  readonly isAtRest: (state: Float64Array) => boolean;
  /** Of the last evaluation, for those who watch a run. */
  readonly watched: Watched;
}

/** What the last evaluation found: the current out of the source or bulk capacitor, and the rail. */
export interface Watched {
  supply: number;
  rail: number;
}

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
  const n = stateCount(circuit);
  const { supply, choke, tank, switches, bodyDiode, breakdown = Infinity, gates } = circuit;
  const isTapped = circuit.arrangement === 'centre-tap';
  const mass = massOf(circuit);
  const watched: Watched = { supply: 0, rail: 0 };
  const [channelA, channelB] = [channelOf(switches[0]), channelOf(switches[1])];
  const [bodyA, bodyB, crossA, crossB] = [
    junctionOf(bodyDiode),
    junctionOf(bodyDiode),
    junctionOf(gates.crossDiode),
    junctionOf(gates.crossDiode),
  ];
  const [clampA, clampB] = [gateClamp(circuit), gateClamp(circuit)];
  const source = sourceOf(circuit);
  const gp = 1 / gates.pullUp;
  const gd = Number.isFinite(gates.pullDown) ? 1 / gates.pullDown : 0;
  const { buffer, limit } = supply;

  const evaluate = (time: Second, y: Float64Array, f: Float64Array, J?: Float64Array): void => {
    const vA = y[0]!, vB = y[1]!, iL = y[2]!, jA = y[3]!, jB = y[4]!, gA = y[5]!, gB = y[6]!; // prettier-ignore
    const E = sourceVoltage(circuit, time);
    const R = time < tank.changesAt ? tank.load : tank.loadAfter;
    const onRail = gates.rail === undefined;
    const j = isTapped ? jA : jA + jB;
    let rail: number, byChoke = 0, byGate = 0; // prettier-ignore
    if (buffer !== undefined) rail = y[7]!;
    else {
      source.at(E, j, gA + gB);
      ({ rail, byChoke, byGate } = source);
    }
    const feed = gates.rail ?? rail;
    const pA = (feed - gA) * gp, pB = (feed - gB) * gp; // prettier-ignore
    watched.rail = rail;
    watched.supply = j + (onRail ? pA + pB : 0);

    channelA.at(gA, vA);
    channelB.at(gB, vB);
    bodyA.at(-vA);
    bodyB.at(-vB);
    crossA.at(gA - vB);
    crossB.at(gB - vA);
    clampA.at(gA);
    clampB.at(gB);
    const zA = breakdownCurrent(vA, breakdown), zB = breakdownCurrent(vB, breakdown); // prettier-ignore
    const zAd = zA > 0 ? breakdownConductance : 0, zBd = zB > 0 ? breakdownConductance : 0; // prettier-ignore
    const hold = gd + (time < gates.releasedAt ? holdConductance : 0);

    const iR = (vA - vB) / R;
    const inA = isTapped ? jA / 2 : jA, inB = isTapped ? jA / 2 : jB; // prettier-ignore
    f[0] = inA - iL - iR - channelA.current + bodyA.current - zA + crossB.current;
    f[1] = inB + iL + iR - channelB.current + bodyB.current - zB + crossA.current;
    f[2] = vA - vB - tank.coilResistance * iL;
    f[3] = rail - choke.resistance * jA - (isTapped ? (vA + vB) / 2 : vA);
    f[4] = isTapped ? -jB : rail - choke.resistance * jB - vB;
    f[5] = pA - crossA.current - clampA.current - hold * gA;
    f[6] = pB - crossB.current - clampB.current - hold * gB;
    if (buffer !== undefined) {
      f[7] = y[8]! - watched.supply;
      f[8] = E - supply.resistance * y[8]! - rail;
      if (limit !== undefined && y[8]! > limit.current) f[8] -= limit.resistance * (y[8]! - limit.current);
    }
    if (J === undefined) return;
    const share = isTapped ? 0.5 : 1;
    J[0] = -1 / R - channelA.byDrain - bodyA.conductance - zAd - crossB.conductance;
    J[1] = 1 / R;
    J[2] = -1;
    J[3] = share;
    J[5] = -channelA.byGate;
    J[6] = crossB.conductance;
    J[n] = 1 / R;
    J[n + 1] = -1 / R - channelB.byDrain - bodyB.conductance - zBd - crossA.conductance;
    J[n + 2] = 1;
    J[n + (isTapped ? 3 : 4)] = share;
    J[n + 5] = crossA.conductance;
    J[n + 6] = -channelB.byGate;
    J[2 * n] = 1;
    J[2 * n + 1] = -1;
    J[2 * n + 2] = -tank.coilResistance;
    const r3 = 3 * n, r4 = 4 * n, r5 = 5 * n, r6 = 6 * n; // prettier-ignore
    J[r3] = isTapped ? -0.5 : -1;
    if (isTapped) J[r3 + 1] = -0.5;
    J[r3 + 3] = byChoke - choke.resistance;
    if (!isTapped) J[r3 + 4] = byChoke;
    J[r3 + 5] = byGate;
    J[r3 + 6] = byGate;
    if (isTapped) J[r4 + 4] = -1;
    else {
      J[r4 + 1] = -1;
      J[r4 + 3] = byChoke;
      J[r4 + 4] = byChoke - choke.resistance;
      J[r4 + 5] = byGate;
      J[r4 + 6] = byGate;
    }
    const feedByChoke = onRail ? byChoke * gp : 0, feedByGate = onRail ? byGate * gp : 0; // prettier-ignore
    J[r5 + 1] = crossA.conductance;
    J[r5 + 3] = feedByChoke;
    J[r5 + 5] = feedByGate - gp - crossA.conductance - clampA.conductance - hold;
    J[r5 + 6] = feedByGate;
    J[r6] = crossB.conductance;
    J[r6 + 3] = feedByChoke;
    J[r6 + 5] = feedByGate;
    J[r6 + 6] = feedByGate - gp - crossB.conductance - clampB.conductance - hold;
    if (!isTapped) {
      J[r5 + 4] = feedByChoke;
      J[r6 + 4] = feedByChoke;
    }
    if (buffer === undefined) return;
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
    J[r8 + 8] = -supply.resistance - (limit !== undefined && y[8]! > limit.current ? limit.resistance : 0);
  };

  const byTime = (time: Second, y: Float64Array, out: Float64Array): void => {
    out.fill(0);
    const slope = sourceSlope(circuit, time);
    if (slope === 0) return;
    if (buffer !== undefined) {
      out[8] = slope;
      return;
    }
    source.at(sourceVoltage(circuit, time), isTapped ? y[3]! : y[3]! + y[4]!, y[5]! + y[6]!);
    out[3] = source.bySource * slope;
    if (!isTapped) out[4] = out[3];
    if (gates.rail === undefined) out[5] = out[6] = out[3] * gp;
  };

  const isAtRest = (y: Float64Array): boolean =>
    y[5]! < switches[0].threshold - rest.gate && y[6]! < switches[1].threshold - rest.gate && Math.abs(y[0]! - y[1]!) < rest.tank;

  return { count: n, mass, evaluate, byTime, isAtRest, watched, ...couplingsOf(circuit) };
}
