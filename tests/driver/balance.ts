import type { Circuit } from '../../src/driver/time-domain/circuit.ts';
import { GateClamp, gateDiode } from '../../src/driver/time-domain/gate-clamp.ts';
import { channelsOf } from '../../src/physics/square-law-channel.ts';
import { junctionsOf } from '../../src/physics/junction-current.ts';
import { storageOf } from './stored-charge.ts';

/** What has passed in a run: energy in J, charge in C. */
export interface Balance {
  readonly given: Readonly<Record<string, number>>;
  readonly lost: Readonly<Record<string, number>>;
  readonly stored: number;
  /** Given, less lost and stored, over all that was given. */
  readonly open: number;
  /** Charge out of the sources, less that into ground and into capacitors tied to it, over the former. */
  readonly openCharge: number;
}

/** Powers and charge currents at a moment. */
interface Flows {
  readonly given: Readonly<Record<string, number>>;
  readonly lost: Readonly<Record<string, number>>;
  readonly out: number;
  readonly toGround: number;
  readonly stored: () => number;
  readonly chargeStored: () => number;
}

/** A step: what flows at its beginning and at its end. */
interface Passed {
  readonly length: number;
  readonly left: Flows;
  readonly right: Flows;
}

/** How far the parabola through three values lies beside the straight line in the middle of the step between two of them. */
function beside([a, b, c]: readonly [number, number, number], [before, after]: readonly [number, number], step: number): number {
  return (((b - a) / before - (c - b) / after) / (before + after)) * (step / 2) ** 2;
}

/**
 * Keeps account of a run, element by element from the circuit diagram: voltage across each times current through it, added up by
 * Simpson's rule. Neither the right sides of the equations nor their matrix M are used.
 */
export function accountOf(circuit: Circuit): { see: (time: number, state: Float64Array) => void; balance: () => Balance } {
  const { arrangement, supply, choke, tank, switches, capacitances, gates, breakdown = Infinity } = circuit;
  const isTapped = arrangement === 'centre-tap';
  const { buffer, limit } = supply;
  const channels = channelsOf(switches);
  const body = junctionsOf([circuit.bodyDiode]);
  const cross = junctionsOf([gates.crossDiode]);
  const clamp = new GateClamp(circuit);
  const below = junctionsOf([gateDiode]);
  const { gateToSource, gateToDrain: constantTransfer, drainToSource: constantOutput, overVoltage } = capacitances;
  const gateToDrain = storageOf(overVoltage?.gateToDrain ?? [{ voltage: 0, capacitance: constantTransfer }]);
  const drainToSource = storageOf(overVoltage?.drainToSource ?? [{ voltage: 0, capacitance: constantOutput }]);
  const current = (junctions: typeof body, v: number): number => {
    junctions.voltages[0] = v;
    junctions.update();
    return junctions.currents[0]!;
  };
  /** Where the line of the source, the lower of its two, meets that of the load. */
  const railBehind = (E: number, j: number, g: number): number => {
    const pull = gates.rail === undefined ? 1 / gates.pullUp : 0;
    const lines = [
      [E, supply.resistance],
      ...(limit === undefined ? [] : [[E + limit.resistance * limit.current, supply.resistance + limit.resistance]]),
    ] as const;
    return Math.min(...lines.map(([emf, r]) => (emf - r * (j - pull * g)) / (1 + 2 * pull * r)));
  };
  const flowsAt = (time: number, y: Float64Array, inside: number): Flows => {
    const [vA, vB, iL, jA, jB, gA, gB] = y as unknown as [number, number, number, number, number, number, number];
    const j = isTapped ? jA : jA + jB;
    const E = time + supply.rising < supply.riseTime ? (supply.voltage * (time + supply.rising)) / supply.riseTime : supply.voltage;
    const rail = buffer === undefined ? railBehind(E, j, gA + gB) : y[7]!;
    const feed = gates.rail ?? rail;
    const [pA, pB] = [(feed - gA) / gates.pullUp, (feed - gB) / gates.pullUp];
    const drawn = j + (gates.rail === undefined ? pA + pB : 0);
    const source = buffer === undefined ? drawn : y[8]!;
    const load = inside < tank.changesAt ? tank.load : tank.loadAfter;
    const hold = 1 / gates.pullDown + (inside < gates.releasedAt ? 1 : 0);
    channels.gates.set([gA, gB]);
    channels.drains.set([vA, vB]);
    channels.update();
    const [iA, iB] = channels.currents as unknown as [number, number];
    const [bodyA, bodyB, xA, xB] = [current(body, -vA), current(body, -vB), current(cross, gA - vB), current(cross, gB - vA)];
    const [zA, zB] = [clamp.current(gA) - current(below, -gA), clamp.current(gB) - current(below, -gB)];
    const [brokenA, brokenB] = [Math.max(0, vA - breakdown) / 0.3, Math.max(0, vB - breakdown) / 0.3];
    const half = (value: number, x: number): number => (value * x * x) / 2;
    return {
      given: { source: E * source, 'gate rail': gates.rail === undefined ? 0 : gates.rail * (pA + pB) },
      lost: {
        'source resistance': supply.resistance * source ** 2,
        'source limit': limit === undefined ? 0 : limit.resistance * Math.max(0, source - limit.current) * source,
        chokes: choke.resistance * (jA ** 2 + (isTapped ? 0 : jB ** 2)),
        coil: tank.coilResistance * iL ** 2,
        load: (vA - vB) ** 2 / load,
        channels: vA * iA + vB * iB,
        'body diodes': -vA * bodyA - vB * bodyB,
        breakdown: vA * brokenA + vB * brokenB,
        'cross diodes': (gA - vB) * xA + (gB - vA) * xB,
        'pull-ups': gates.pullUp * (pA ** 2 + pB ** 2),
        clamps: gA * zA + gB * zB,
        'pull-downs': hold * (gA ** 2 + gB ** 2),
      },
      out: source + (gates.rail === undefined ? 0 : pA + pB),
      toGround: iA + iB - bodyA - bodyB + brokenA + brokenB + zA + zB + hold * (gA + gB),
      stored: () =>
        half(tank.capacitance, vA - vB) +
        drainToSource(vA).energy +
        drainToSource(vB).energy +
        half(gateToSource, gA) +
        half(gateToSource, gB) +
        gateToDrain(vA - gA).energy +
        gateToDrain(vB - gB).energy +
        half(tank.inductance, iL) +
        half(choke.inductance, jA) +
        (isTapped ? 0 : half(choke.inductance, jB)) +
        (buffer === undefined ? 0 : half(buffer.capacitance, rail) + half(buffer.inductance, source)),
      chargeStored: () =>
        drainToSource(vA).charge +
        drainToSource(vB).charge +
        gateToSource * (gA + gB) +
        (buffer === undefined ? 0 : buffer.capacitance * rail),
    };
  };
  const [given, lost]: [Record<string, number>, Record<string, number>] = [{}, {}];
  let [first, last]: (Flows | undefined)[] = [];
  let [charge, grounded] = [0, 0];
  /** Adds up over a step: by Simpson's rule on the flatter of the parabolas with the step before and the step after, where both go on from it. */
  const add = ([earlier, now, later]: readonly [Passed | undefined, Passed, Passed | undefined]): void => {
    first ??= now.left;
    last = now.right;
    const whole = (of: (flows: Flows) => number): number => {
      const [left, right] = [of(now.left), of(now.right)];
      const bends = [
        ...(earlier === undefined ? [] : [beside([of(earlier.left), left, right], [earlier.length, now.length], now.length)]),
        ...(later === undefined ? [] : [beside([left, right, of(later.right)], [now.length, later.length], now.length)]),
      ];
      const flattest = bends.reduce((least, bend) => (Math.abs(bend) < Math.abs(least) ? bend : least), bends[0] ?? 0);
      return now.length * ((left + right) / 2 + (2 / 3) * flattest);
    };
    for (const name of Object.keys(last.given)) given[name] = (given[name] ?? 0) + whole((flow) => flow.given[name]!);
    for (const name of Object.keys(last.lost)) lost[name] = (lost[name] ?? 0) + whole((flow) => flow.lost[name]!);
    charge += whole(({ out }) => out);
    grounded += whole(({ toGround }) => toGround);
  };
  let before: { time: number; y: Float64Array } | undefined;
  let [earlier, now]: (Passed | undefined)[] = [];
  const see = (time: number, state: Float64Array): void => {
    const y = Float64Array.from(state);
    if (before !== undefined) {
      const inside = (before.time + time) / 2;
      const later = { length: time - before.time, left: flowsAt(before.time, before.y, inside), right: flowsAt(time, y, inside) };
      if (now !== undefined) add([earlier, now, later]);
      [earlier, now] = [now, later];
    }
    before = { time, y };
  };
  const sum = (of: Readonly<Record<string, number>>): number => Object.values(of).reduce((a, b) => a + b, 0);
  const balance = (): Balance => {
    add([earlier, now!, undefined]);
    const stored = last!.stored() - first!.stored();
    const chargeStored = last!.chargeStored() - first!.chargeStored();
    return {
      given,
      lost,
      stored,
      open: (sum(given) - sum(lost) - stored) / sum(given),
      openCharge: (charge - grounded - chargeStored) / charge,
    };
  };
  return { see, balance };
}
