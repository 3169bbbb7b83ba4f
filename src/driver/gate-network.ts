import { clampPower, gateHighVoltage, gateRiseTime, pullUpDiode, pullUpPower } from '../physics/gate.ts';
import type { Design } from '../project/design.ts';
import type { Ratio, Second, Volt, Watt } from '../units/si.ts';
import type { Corner } from './corner.ts';
import { isKnown, type Maybe } from './known.ts';
import { railPeakRatio } from './rail.ts';

/** The gate network at one corner of the supply; nothing here depends on the load. */
export interface GateNetwork {
  /** Vg, the rail behind the pull-ups. */
  readonly feed: Volt;
  /** Drop of the cross diode at the pull-up's current, and that current. */
  readonly diodeDrop: Maybe;
  readonly diodeCurrent: Maybe;
  /** Highest voltage of that rail: the supply's own ringing when it is switched on included. */
  readonly feedPeak: Volt;
  /** Vhigh with the clamp at its nominal voltage. */
  readonly high: Volt;
  /** Vhigh with the clamp at the bottom of its tolerance. */
  readonly lowestHigh: Volt;
  /** Highest gate voltage: clamp at the top of its tolerance, its impedance included. */
  readonly peak: Maybe;
  /** The same on a live rail whose leads are not known and may ring to twice its voltage; undefined where that cannot be. */
  readonly peakIfRinging: Maybe | undefined;
  /** Of one pull-up while running. */
  readonly pullUpPower: Watt;
  /** Of one pull-up whose gate is held low before the start; undefined where nothing holds it. */
  readonly heldPullUpPower: Watt | undefined;
  /** Undefined without a clamp. */
  readonly clampPower: Maybe | undefined;
}

/** The gate network of a design at a corner. */
export function gateNetworkAt({ design, corner }: { design: Design; corner: Corner }): GateNetwork {
  const { pullUp, pullDown = Infinity, clamp, crossDiode } = design.gates;
  const feed = gateFeed({ design, corner });
  const zener = clamp?.ratings.zenerVoltage?.value;
  const tolerance = clamp?.ratings.tolerance?.value ?? 0;
  const high = gateHighVoltage({ feed, pullUp: pullUp.resistance, pullDown, clamp: zener ?? Infinity });
  const forward = crossDiode.ratings.forwardVoltage;
  const statedCurrent = forward?.at?.['forwardCurrent'];
  const diode =
    forward === undefined || statedCurrent === undefined
      ? undefined
      : pullUpDiode({ feed, pullUp: pullUp.resistance, statedDrop: forward.value, statedCurrent });
  const noDrop = { unknown: `${crossDiode.name} gives no forwardVoltage with its current` };
  const lowestHigh = gateHighVoltage({ feed, pullUp: pullUp.resistance, pullDown, clamp: (zener ?? Infinity) * (1 - tolerance) });
  const isOnRail = pullUp.from === 'supply' && !pullUp.hold;
  const feedPeak = isOnRail ? feed * railPeakRatio(design) : feed;
  return {
    feed,
    feedPeak,
    diodeDrop: diode?.drop ?? noDrop,
    diodeCurrent: diode?.current ?? noDrop,
    high,
    lowestHigh,
    peak: peakGateVoltage({ design, feed: feedPeak }),
    peakIfRinging: isOnRail && mayRing(design) ? peakGateVoltage({ design, feed: 2 * feed }) : undefined,
    heldPullUpPower: pullUp.hold ? feed ** 2 / pullUp.resistance : undefined,
    pullUpPower: pullUpPower({ feed, diodeDrop: diode?.drop ?? 0, gateHigh: lowestHigh, pullUp: pullUp.resistance }),
    clampPower: clamp === undefined ? undefined : largestClampPower({ design, feed, tolerance }),
  };
}

/** A rise below this is not long against the ringing of a metre of leads into a thousand microfarads. */
const swiftRise: Second = 0.5e-3;

function mayRing({ supply }: Design): boolean {
  return (supply.riseTime ?? 0) < swiftRise && (supply.bulkCapacitance === undefined || supply.leadInductance === undefined);
}

/** Voltage of the rail behind the pull-ups. */
export function gateFeed({ design, corner }: { design: Design; corner: Corner }): Volt {
  const { from } = design.gates.pullUp;
  return from === 'supply' ? design.supply.voltage * corner.supply : from;
}

function peakGateVoltage({ design, feed }: { design: Design; feed: Volt }): Maybe {
  const { pullUp, pullDown = Infinity, clamp } = design.gates;
  const open = gateHighVoltage({ feed, pullUp: pullUp.resistance, pullDown, clamp: Infinity });
  if (clamp === undefined) return open;
  const { zenerVoltage, tolerance, impedance, testCurrent } = clamp.ratings;
  if (zenerVoltage === undefined) return { unknown: `${clamp.name} gives no zenerVoltage` };
  const top = zenerVoltage.value * (1 + (tolerance?.value ?? 0));
  if (open <= top) return open;
  const current = (feed - top) / pullUp.resistance - top / pullDown;
  const above = Math.max(0, current - (testCurrent?.value ?? 0));
  if (impedance === undefined && above > 0) return { unknown: `${clamp.name} gives no impedance` };
  return Math.min(open, top + (impedance?.value ?? 0) * above);
}

/** The clamp's power peaks at some voltage within its tolerance: at Vg/2 or at an end. */
function largestClampPower({ design, feed, tolerance }: { design: Design; feed: Volt; tolerance: Ratio }): Maybe {
  const { pullUp, pullDown = Infinity, clamp } = design.gates;
  const nominal = clamp?.ratings.zenerVoltage?.value;
  if (nominal === undefined) return { unknown: `${clamp?.name} gives no zenerVoltage` };
  const [low, high] = [nominal * (1 - tolerance), nominal * (1 + tolerance)];
  const worst = Math.min(high, Math.max(low, feed / (2 * (1 + pullUp.resistance / pullDown))));
  const powerAt = (voltage: Volt): Watt => clampPower({ feed, clamp: voltage, pullUp: pullUp.resistance, pullDown });
  return Math.max(powerAt(low), powerAt(worst), powerAt(high));
}

/** What the gate does on its way up to a voltage, with a given capacitance. */
export function riseTimeTo({
  design,
  feed,
  capacitance,
  target,
}: {
  design: Design;
  feed: Volt;
  capacitance: Maybe;
  target: Maybe;
}): Maybe | 'never' {
  if (!isKnown(capacitance)) return capacitance;
  if (!isKnown(target)) return target;
  const { pullUp, pullDown = Infinity } = design.gates;
  return gateRiseTime({ feed, pullUp: pullUp.resistance, pullDown, capacitance, target }) ?? 'never';
}
