import type { Kelvin, KelvinPerWatt, KelvinRise, Watt } from '../units/si.ts';

/**
 * Junction temperature through a chain of thermal resistances.
 *
 *     Tj = Ta + P·ΣR_th
 *
 * @param ambient            Ta, in K
 * @param loss               P, in W
 * @param thermalResistance  ΣR_th, in K/W
 * @returns Tj, in K
 *
 * Valid for: steady state.
 * Source: thermal Ohm's law (check-values E-stack)
 *
 * @example junctionTemperature({ ambient: 313.15, loss: 15, thermalResistance: 4 }) // 373.15
 */
export function junctionTemperature({
  ambient: Ta,
  loss: P,
  thermalResistance: Rth,
}: {
  ambient: Kelvin;
  loss: Watt;
  thermalResistance: KelvinPerWatt;
}): Kelvin {
  return Ta + P * Rth;
}

/** What the search for a temperature that agrees with its own loss found. */
export type SelfConsistentTemperature =
  | { readonly found: true; readonly temperature: Kelvin; readonly loss: Watt }
  /** `runaway`: the loss grows faster than the cooling up to `searchedTo`; `no state`: the loss has no value at `temperature`. */
  | { readonly found: false; readonly why: 'runaway' | 'no state'; readonly temperature: Kelvin };

/**
 * The lowest temperature that agrees with the loss it causes, going up from ambient: where a part that is switched on cold settles.
 *
 *     T = Ta + R_th·P(T)
 *
 * @param ambient            Ta, in K
 * @param thermalResistance  R_th, junction to ambient, in K/W, not negative
 * @param lossAt             P at a temperature in K, in W; undefined where the circuit has no running state at it
 * @param searchTo           highest temperature looked at, in K
 * @returns the temperature and loss, or why there is none
 *
 * Valid for: a loss that is continuous in temperature; roots closer together than 1 K may be passed over.
 * Source: fixed point, found by a scan in steps of 1 K and bisection (check-values E-selfconsistent-*, E-runaway)
 *
 * @example selfConsistentTemperature({ ambient: 300, thermalResistance: 2, lossAt: () => 10, searchTo: 600 }) // { found: true, temperature: 320, loss: 10 }
 */
export function selfConsistentTemperature({
  ambient: Ta,
  thermalResistance: Rth,
  lossAt,
  searchTo,
}: {
  ambient: Kelvin;
  thermalResistance: KelvinPerWatt;
  lossAt: (temperature: Kelvin) => Watt | undefined;
  searchTo: Kelvin;
}): SelfConsistentTemperature {
  let below = Ta;
  for (let step = 0; ; step++) {
    const T = Math.min(Ta + step, searchTo);
    const P = lossAt(T);
    if (P === undefined) return { found: false, why: 'no state', temperature: T };
    if (Ta + Rth * P <= T) return settle({ below, above: T, ambient: Ta, thermalResistance: Rth, lossAt });
    if (T >= searchTo) return { found: false, why: 'runaway', temperature: searchTo };
    below = T;
  }
}

function settle({
  below,
  above,
  ambient: Ta,
  thermalResistance: Rth,
  lossAt,
}: {
  below: Kelvin;
  above: Kelvin;
  ambient: Kelvin;
  thermalResistance: KelvinPerWatt;
  lossAt: (temperature: Kelvin) => Watt | undefined;
}): SelfConsistentTemperature {
  // false position with the stale end weighed down (Illinois): a loss is nearly straight within a kelvin
  const excess = (T: Kelvin): number => Ta + Rth * (lossAt(T) ?? Infinity) - T;
  let [low, high] = [below, above];
  let [lowExcess, highExcess] = [excess(low), excess(high)];
  for (let i = 0, side = 0; i < 60 && high - low > 1e-12 * high; i++) {
    const straight = high - (highExcess * (high - low)) / (highExcess - lowExcess);
    const middle = straight > low && straight < high ? straight : (low + high) / 2;
    const middleExcess = excess(middle);
    if (Math.abs(middleExcess) <= 1e-12 * middle) {
      high = middle;
      break;
    }
    if (middleExcess > 0) {
      [low, lowExcess] = [middle, middleExcess];
      if (side === 1) highExcess /= 2;
      side = 1;
    } else {
      [high, highExcess] = [middle, middleExcess];
      if (side === -1) lowExcess /= 2;
      side = -1;
    }
  }
  const loss = lossAt(high);
  if (loss === undefined) return { found: false, why: 'no state', temperature: high };
  return { found: true, temperature: high, loss };
}

/**
 * Largest product of thermal resistance, squared current and on-resistance at 25 °C that still has a steady junction temperature.
 *
 *     R_th·I²·R25 ≤ (Tc − Ta)·(298.15/Tc)^n,  Tc = n·Ta/(n − 1)
 *
 * @param ambient   Ta, in K
 * @param exponent  n of the on-resistance, above 1
 * @returns the limit in K and the critical temperature Tc in K
 *
 * Valid for: conduction loss alone with a constant current.
 * Source: derived, tangent condition (check-values E-runaway)
 *
 * @example runawayLimit({ ambient: 313.15, exponent: 2.3 }) // { criticalTemperature: 554.034615384615, limit: 57.9260968136 }
 */
export function runawayLimit({ ambient: Ta, exponent: n }: { ambient: Kelvin; exponent: number }): {
  criticalTemperature: Kelvin;
  limit: KelvinRise;
} {
  const Tc = (n * Ta) / (n - 1);
  return { criticalTemperature: Tc, limit: (Tc - Ta) * (298.15 / Tc) ** n };
}
