/** Units that a quantity may be written in, with the prefixes that make sense. mathjs knows many more, some of them traps. */
const units: Readonly<Record<string, string>> = {
  V: 'unmk',
  A: 'unmk',
  ohm: 'unmkMG',
  S: 'um',
  H: 'pnum',
  F: 'pnum',
  Hz: 'kMG',
  s: 'pnum',
  W: 'unmkM',
  J: 'unmk',
  C: 'pnum',
  K: 'm',
  m: 'umc',
  in: '',
};

const symbols: ReadonlySet<string> = new Set(
  Object.entries(units).flatMap(([unit, prefixes]) => [unit, ...[...prefixes].map((prefix) => prefix + unit)]),
);

/**
 * Whether a word is a unit, prefix included.
 *
 * @example isUnitSymbol('mohm') // true
 */
export function isUnitSymbol(word: string): boolean {
  return symbols.has(word);
}

const words: Readonly<Record<string, string>> = {
  volt: 'V',
  amp: 'A',
  ampere: 'A',
  henry: 'H',
  henrie: 'H',
  farad: 'F',
  hertz: 'Hz',
  watt: 'W',
  joule: 'J',
  second: 's',
  sec: 's',
  kelvin: 'K',
  ohm: 'ohm',
  siemen: 'S',
  siemens: 'S',
  coulomb: 'C',
  meter: 'm',
  metre: 'm',
  inch: 'in',
  inche: 'in',
  mho: 'S',
  r: 'ohm',
  cps: 'Hz',
};
const prefixWords: Readonly<Record<string, string>> = { pico: 'p', nano: 'n', micro: 'u', milli: 'm', kilo: 'k', mega: 'M', giga: 'G' };

/**
 * Units that may have been meant by a word that is none: another case, a word for a unit, a suffix too many.
 *
 * @returns at most three, the likeliest first
 *
 * @example unitsMeant('KHz') // ['kHz']
 * @example unitsMeant('Volts') // ['V']
 * @example unitsMeant('millivolts') // ['mV']
 */
export function unitsMeant(word: string): readonly string[] {
  const sameLetters = [...symbols].filter((symbol) => symbol.toLowerCase() === word.toLowerCase());
  if (sameLetters.length > 0) return sameLetters.slice(0, 3);
  const spelled = /^(pico|nano|micro|milli|kilo|mega|giga|[pnumkMG])?(.+?)s?$/i.exec(word.toLowerCase());
  const plain = words[word.toLowerCase().replace(/s$/, '')] ?? words[word.toLowerCase()];
  if (plain !== undefined) return [plain];
  const unit = words[spelled?.[2] ?? ''];
  const prefix = spelled?.[1] ?? '';
  const joined = unit === undefined ? '' : (prefixWords[prefix] ?? prefix) + unit;
  if (symbols.has(joined)) return [joined];
  const suffixed = /^(.+?)_?(rms|pk|pp|peak|dc|ac|max|min|typ)$/i.exec(word)?.[1];
  return suffixed !== undefined && symbols.has(suffixed) ? [suffixed] : [];
}
