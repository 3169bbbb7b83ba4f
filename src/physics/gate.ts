import type { Ampere, Farad, Ohm, Second, Volt, Watt } from '../units/si.ts';

/**
 * Gate voltage while the switch is on.
 *
 *     Vhigh = min(Vz, Vg·Rpd/(Rg + Rpd))
 *
 * @param feed       Vg, the rail that feeds the pull-up, in V
 * @param pullUp     Rg, in Ω, above zero
 * @param pullDown   Rpd, in Ω; Infinity for none
 * @param clamp      Vz, in V; Infinity for none
 * @returns Vhigh, in V
 *
 * Valid for: a gate that has had time to charge.
 * Source: Ohm's law
 *
 * @example gateHighVoltage({ feed: 24, pullUp: 470, pullDown: Infinity, clamp: 12 }) // 12
 */
export function gateHighVoltage({
  feed: Vg,
  pullUp: Rg,
  pullDown: Rpd,
  clamp: Vz,
}: {
  feed: Volt;
  pullUp: Ohm;
  pullDown: Ohm;
  clamp: Volt;
}): Volt {
  return Math.min(Vz, divided({ feed: Vg, pullUp: Rg, pullDown: Rpd }));
}

function divided({ feed, pullUp, pullDown }: { feed: Volt; pullUp: Ohm; pullDown: Ohm }): Volt {
  return Number.isFinite(pullDown) ? (feed * pullDown) / (pullUp + pullDown) : feed;
}

/**
 * Mean power in a pull-up resistor whose gate is held low for half of each period and high for the other half.
 *
 *     P = ½·[(Vg − Vf)² + (Vg − Vhigh)²]/Rg
 *
 * @param feed       Vg, in V
 * @param diodeDrop  Vf of the cross diode, in V
 * @param gateHigh   Vhigh, in V
 * @param pullUp     Rg, in Ω, above zero
 * @returns P, in W
 *
 * Valid for: a gate that is high or low for most of its half period.
 * Source: Ohm's law (check-values A-pullup-loss)
 *
 * @example pullUpPower({ feed: 12, diodeDrop: 0, gateHigh: 12, pullUp: 470 }) // 0.15319148936170213
 */
export function pullUpPower({
  feed: Vg,
  diodeDrop: Vf,
  gateHigh: Vhigh,
  pullUp: Rg,
}: {
  feed: Volt;
  diodeDrop: Volt;
  gateHigh: Volt;
  pullUp: Ohm;
}): Watt {
  return (0.5 * ((Vg - Vf) ** 2 + (Vg - Vhigh) ** 2)) / Rg;
}

/**
 * Mean power in the gate clamp, which conducts while its gate is high, half of each period.
 *
 *     P = ½·Vz·max(0, (Vg − Vz)/Rg − Vz/Rpd)
 *
 * @param feed      Vg, in V
 * @param clamp     Vz, in V
 * @param pullUp    Rg, in Ω, above zero
 * @param pullDown  Rpd, in Ω; Infinity for none
 * @returns P, in W
 *
 * Valid for: running; twice this where the oscillation stops with a gate high.
 * Source: Ohm's law
 *
 * @example clampPower({ feed: 24, clamp: 12, pullUp: 470, pullDown: Infinity }) // 0.15319148936170213
 */
export function clampPower({
  feed: Vg,
  clamp: Vz,
  pullUp: Rg,
  pullDown: Rpd,
}: {
  feed: Volt;
  clamp: Volt;
  pullUp: Ohm;
  pullDown: Ohm;
}): Watt {
  return 0.5 * Vz * Math.max(0, (Vg - Vz) / Rg - Vz / Rpd);
}

/**
 * Time in which the pull-up brings a gate from zero to a voltage.
 *
 *     t = −R·C·ln(1 − V/V'),  V' = Vg·Rpd/(Rg + Rpd),  R = Rg ∥ Rpd
 *
 * @param feed         Vg, in V
 * @param pullUp       Rg, in Ω, above zero
 * @param pullDown     Rpd, in Ω; Infinity for none
 * @param capacitance  C at the gate, drain low, in F
 * @param target       V, in V
 * @returns t, in s; undefined where the gate never gets there
 *
 * Valid for: a constant C; take the input capacitance at zero drain voltage, up to twice the catalogue figure.
 * Source: first-order RC response (check-values A-pullup-delay)
 *
 * @example gateRiseTime({ feed: 12, pullUp: 470, pullDown: Infinity, capacitance: 3e-9, target: 4 }) // 5.71705802433e-7
 */
export function gateRiseTime({
  feed: Vg,
  pullUp: Rg,
  pullDown: Rpd,
  capacitance: C,
  target: V,
}: {
  feed: Volt;
  pullUp: Ohm;
  pullDown: Ohm;
  capacitance: Farad;
  target: Volt;
}): Second | undefined {
  const reached = divided({ feed: Vg, pullUp: Rg, pullDown: Rpd });
  if (!(V < reached)) return undefined;
  const R = Number.isFinite(Rpd) ? (Rg * Rpd) / (Rg + Rpd) : Rg;
  return -R * C * Math.log1p(-V / reached);
}

/**
 * Forward drop of a junction diode at another current than the one it is stated at.
 *
 *     Vf(I) = Vf0 − 0.046 V·ln(I0/I)
 *
 * @param statedDrop     Vf0, in V
 * @param statedCurrent  I0, in A, above zero
 * @param current        I, in A, above zero
 * @returns Vf, in V, not below zero
 *
 * Valid for: 1 A class silicon rectifiers from 1 mA to 1 A.
 * Source: slope of the class, common practice, no source
 *
 * @example diodeDrop({ statedDrop: 1, statedCurrent: 1, current: 1 }) // 1
 */
export function diodeDrop({
  statedDrop: Vf0,
  statedCurrent: I0,
  current: I,
}: {
  statedDrop: Volt;
  statedCurrent: Ampere;
  current: Ampere;
}): Volt {
  return Math.max(0, Vf0 - 0.046 * Math.log(I0 / I));
}

/**
 * Drop of the cross diode at the current that the pull-up sends through it, and that current.
 *
 *     I = (Vg − Vf(I))/Rg
 *
 * @param feed           Vg, in V, above zero
 * @param pullUp         Rg, in Ω, above zero
 * @param statedDrop     Vf0, in V
 * @param statedCurrent  I0, in A, above zero
 * @returns the drop in V and the current in A
 *
 * Valid for: as diodeDrop; a feed below the drop leaves the diode at the feed's voltage without current.
 * Source: Ohm's law and diodeDrop, iterated to agreement
 *
 * @example pullUpDiode({ feed: 0.5, pullUp: 470, statedDrop: 2, statedCurrent: 1e-6 }) // { drop: 0.5, current: 0 }
 */
export function pullUpDiode({
  feed: Vg,
  pullUp: Rg,
  statedDrop,
  statedCurrent,
}: {
  feed: Volt;
  pullUp: Ohm;
  statedDrop: Volt;
  statedCurrent: Ampere;
}): { drop: Volt; current: Ampere } {
  let [low, high] = [0, Vg];
  for (let i = 0; i < 80; i++) {
    const drop = (low + high) / 2;
    // nothing lies between them
    if (drop === low || drop === high) break;
    const current = (Vg - drop) / Rg;
    if (current > 0 && diodeDrop({ statedDrop, statedCurrent, current }) > drop) low = drop;
    else high = drop;
  }
  return high >= Vg * (1 - 1e-12) ? { drop: Vg, current: 0 } : { drop: high, current: (Vg - high) / Rg };
}
