import type { Ampere, Kelvin, Metre, Ohm, SquareMetre, Volt } from '../units/si.ts';
import { finite, requireFinite, requirePositive } from './preconditions.ts';

/** Nominal cross-section in mm², largest resistance at 20 °C in mΩ/m, current in A in free air at 30 °C (none given for 0.5 mm²). */
const leads: readonly { readonly section: number; readonly resistance: number; readonly capacity?: number }[] = [
  { section: 0.5, resistance: 39 },
  { section: 0.75, resistance: 26, capacity: 15 },
  { section: 1, resistance: 19.5, capacity: 19 },
  { section: 1.5, resistance: 13.3, capacity: 24 },
  { section: 2.5, resistance: 7.98, capacity: 32 },
  { section: 4, resistance: 4.95, capacity: 42 },
  { section: 6, resistance: 3.3, capacity: 54 },
  { section: 10, resistance: 1.91, capacity: 73 },
  { section: 16, resistance: 1.21, capacity: 98 },
  { section: 25, resistance: 0.78, capacity: 129 },
  { section: 35, resistance: 0.554, capacity: 158 },
  { section: 50, resistance: 0.386, capacity: 198 },
  { section: 70, resistance: 0.272, capacity: 245 },
  { section: 95, resistance: 0.206, capacity: 292 },
  { section: 120, resistance: 0.161, capacity: 344 },
];

/** Conductor temperature that the capacities allow, and the air they are given for, in K. */
const [conductorLimit, ratedAmbient] = [343.15, 303.15];

const squareMillimetre = 1e-6;

/**
 * Smallest nominal cross-section of a copper lead that carries a current.
 *
 *     capacity·√((70 °C − Ta)/(70 °C − 30 °C)) ≥ I
 *
 * @param current  I, rms, in A, above zero
 * @param ambient  Ta around the lead, in K, below 343.15
 * @returns the cross-section, in m²; undefined above the capacity of 120 mm²
 *
 * Valid for: one flexible single core, PVC or rubber insulated, free in air, conductor up to 70 °C, dc to 60 Hz; not bundled, not coiled.
 * Errors: RangeError where an argument breaks its bounds.
 * Source: DIN VDE 0298-4, Table 11 column 2, and the ambient factors of Table 17, which the root reproduces, as reprinted by cable makers, read
 *
 * @example leadCrossSectionForCurrent({ current: 20, ambient: 303.15 }) // 1.5e-6
 */
export function leadCrossSectionForCurrent({ current: I, ambient: Ta }: { current: Ampere; ambient: Kelvin }): SquareMetre | undefined {
  requirePositive({ current: I, ambient: Ta });
  if (Ta >= conductorLimit) throw new RangeError(`no current capacity in air of ${Ta} K`);
  const factor = Math.sqrt((conductorLimit - Ta) / (conductorLimit - ratedAmbient));
  const fitting = leads.find(({ capacity }) => capacity !== undefined && capacity * factor >= I * (1 - 1e-9));
  return fitting && fitting.section * squareMillimetre;
}

/**
 * Largest dc resistance of a flexible copper lead of nominal cross-section.
 *
 *     R = R'20·l·[1 + 0.00393·(T − 20 °C)]
 *
 * @param crossSection  a nominal one from 0.5 mm² to 120 mm², in m²
 * @param length        l of the conductor, there and back if both count, in m, above zero
 * @param temperature   T of the conductor, in K, above zero
 * @returns R, in Ω
 *
 * Valid for: plain copper, class 5; dc, and ac below skin effect.
 * Errors: RangeError where the cross-section is not nominal or an argument breaks its bounds.
 * Source: IEC 60228:2004, class 5, as reprinted, read; temperature coefficient IEC 60028 (check-values C-iacs, C-tempco)
 *
 * @example leadResistance({ crossSection: 1.5e-6, length: 10, temperature: 293.15 }) // 0.133
 */
export function leadResistance({
  crossSection: A,
  length: l,
  temperature: T,
}: {
  crossSection: SquareMetre;
  length: Metre;
  temperature: Kelvin;
}): Ohm {
  requirePositive({ crossSection: A, length: l, temperature: T });
  const lead = leads.find(({ section }) => Math.abs(A / (section * squareMillimetre) - 1) < 1e-6);
  if (lead === undefined) throw new RangeError(`${A} m² is not a nominal cross-section from 0.5 mm² to 120 mm²`);
  const value = lead.resistance * 1e-3 * l * (1 + 0.00393 * (T - 293.15));
  return finite({ name: 'resistance', value });
}

/**
 * Smallest nominal cross-section of copper leads over which no more than a given voltage is lost.
 *
 *     I·R(2·l) ≤ ΔV
 *
 * @param current      I, in A, above zero
 * @param length       l from source to load, in m, above zero; the current flows there and back
 * @param drop         ΔV, in V, above zero
 * @param temperature  of the conductor, in K; 343.15 if left out
 * @returns the cross-section, in m²; undefined where 120 mm² lose more. Whether it carries the current is another question.
 *
 * Valid for: plain copper, class 5; dc.
 * Errors: RangeError where an argument breaks its bounds.
 * Source: IEC 60228:2004, class 5, as reprinted, read
 *
 * @example leadCrossSectionForDrop({ current: 10, length: 2, drop: 0.5 }) // 2.5e-6
 */
export function leadCrossSectionForDrop({
  current: I,
  length: l,
  drop,
  temperature = conductorLimit,
}: {
  current: Ampere;
  length: Metre;
  drop: Volt;
  temperature?: Kelvin;
}): SquareMetre | undefined {
  requirePositive({ current: I, length: l, drop });
  requireFinite({ temperature });
  const sections = leads.map(({ section }) => section * squareMillimetre);
  return sections.find((crossSection) => I * leadResistance({ crossSection, length: 2 * l, temperature }) <= drop * (1 + 1e-9));
}
