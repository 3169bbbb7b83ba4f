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
  T: 'num',
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

const words: ReadonlyMap<string, string> = new Map(
  Object.entries({
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
  }),
);
const prefixes: ReadonlyMap<string, string> = new Map(
  Object.entries({
    pico: 'p',
    nano: 'n',
    micro: 'u',
    milli: 'm',
    kilo: 'k',
    mega: 'M',
    meg: 'M',
    giga: 'G',
    K: 'k',
    P: 'p',
    N: 'n',
    U: 'u',
  }),
);

/** A prefix before a word for a unit, in the case that it was written in: `MWatts` are no milliwatts. */
const spelled = /^(pico|nano|micro|milli|kilo|mega?|giga|[pnumkg])(.+?)s?$/i;

/**
 * Units that may have been meant by a word that is none: another case, a word for a unit, a suffix too many.
 *
 * @returns at most three, the likeliest first
 *
 * @example unitsMeant('KHz') // ['kHz']
 * @example unitsMeant('Volts') // ['V']
 * @example unitsMeant('millivolts') // ['mV']
 * @example unitsMeant('constructor') // []
 */
export function unitsMeant(word: string): readonly string[] {
  const lower = word.toLowerCase();
  if (lower === 'meg') return ['Mohm'];
  const sameLetters = [...symbols].filter((symbol) => symbol.toLowerCase() === lower);
  if (sameLetters.length > 0) return sameLetters.slice(0, 3);
  const plain = words.get(lower.replace(/s$/, '')) ?? words.get(lower);
  if (plain !== undefined) return [plain];
  const [, prefix = '', name = ''] = spelled.exec(word) ?? [];
  const unit = words.get(name.toLowerCase());
  const short = prefixes.get(prefix.length > 1 ? prefix.toLowerCase() : prefix) ?? prefix;
  if (unit !== undefined && symbols.has(short + unit)) return [short + unit];
  const suffixed = /^(.+?)_?(rms|pk|pp|p|peak|dc|ac|max|min|typ|nom)$/i.exec(word)?.[1];
  return suffixed !== undefined && symbols.has(suffixed) ? [suffixed] : [];
}

/**
 * The unit of the expected kind that a unit or prefix of no such kind stands for, one slip of the pen away.
 *
 * @param written  as it stands: a prefix alone, a unit whose last letter is another, or one in the wrong case
 * @param wanted   SI unit of what is expected
 * @returns undefined where none is plausible
 *
 * @example unitInstead({ written: 'mm', wanted: 'H' }) // 'mH'
 * @example unitInstead({ written: 'k', wanted: 'ohm' }) // 'kohm'
 * @example unitInstead({ written: 'uS', wanted: 's' }) // 'us'
 */
export function unitInstead({ written, wanted }: { written: string; wanted: string }): string | undefined {
  if (written.toLowerCase() === wanted.toLowerCase()) return symbols.has(wanted) ? wanted : undefined;
  const isPrefixAlone = /^[pnumkKMG]$/.test(written);
  const isOneLetterOff = /^[pnumkM].$/.test(written) && symbols.has(written) && wanted.length === 1;
  const instead = written.charAt(0).replace('K', 'k') + wanted;
  return (isPrefixAlone || isOneLetterOff) && symbols.has(instead) ? instead : undefined;
}
