/**
 * Numbers in SI units. The unit is a mark for the compiler only: a literal or the result of arithmetic flows in freely, a value
 * already marked with another unit does not compile.
 */
export type Si<U extends string> = number & { readonly unit?: U };

export type Volt = Si<'V'>;
export type Ampere = Si<'A'>;
export type Ohm = Si<'ohm'>;
export type Siemens = Si<'S'>;
export type Henry = Si<'H'>;
export type Farad = Si<'F'>;
export type Hertz = Si<'Hz'>;
export type RadianPerSecond = Si<'rad/s'>;
export type Second = Si<'s'>;
export type Watt = Si<'W'>;
export type Joule = Si<'J'>;
export type Coulomb = Si<'C'>;
/** An absolute temperature. */
export type Kelvin = Si<'K'>;
/** A temperature difference. */
export type KelvinRise = Si<'K rise'>;
export type KelvinPerWatt = Si<'K/W'>;
export type VoltPerKelvin = Si<'V/K'>;
export type VoltPerSecond = Si<'V/s'>;
export type AmperePerVoltSquared = Si<'A/V2'>;
export type Metre = Si<'m'>;
export type SquareMetre = Si<'m2'>;
export type CubicMetre = Si<'m3'>;
export type CubicMetrePerSecond = Si<'m3/s'>;
export type SquareMetrePerSecond = Si<'m2/s'>;
export type MetrePerSecondSquared = Si<'m/s2'>;
export type KilogramPerCubicMetre = Si<'kg/m3'>;
export type PascalSecond = Si<'Pa s'>;
export type JoulePerKilogramKelvin = Si<'J/(kg K)'>;
export type WattPerMetre = Si<'W/m'>;
export type WattPerMetreKelvin = Si<'W/(m K)'>;
export type PerKelvin = Si<'1/K'>;
export type AmperePerSquareMetre = Si<'A/m2'>;
export type Tesla = Si<'T'>;
export type Radian = Si<'rad'>;
export type OhmMetre = Si<'ohm m'>;
export type OhmPerMetre = Si<'ohm/m'>;
export type HenryPerMetre = Si<'H/m'>;
export type AmperePerMetre = Si<'A/m'>;
/** A plain ratio: 5 % is 0.05. */
export type Ratio = Si<'1'>;
