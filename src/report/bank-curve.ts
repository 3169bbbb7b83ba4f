import { worstStress } from '../checks/bank-state.ts';
import type { BankOption } from '../studies/bank.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { painted, type BankStyle } from './bank-text.ts';
import { escaped, svgDocument, svgWidth } from './svg.ts';
import { riseOf } from './bank-words.ts';
import { hanging } from './wrap.ts';

const stressOf = ({ state }: BankOption, id: string): number | null => state.stresses.find((stress) => stress.id === id)?.value ?? null;

const current = (option: BankOption): number | null => stressOf(option, 'capacitor-current') ?? option.current;
const rise = ({ state }: BankOption): number | null => riseOf(state);

/** What `bank FILE --parallel RANGE` prints: a line a count, for one part. */
export function bankCurveText({
  file,
  title,
  curve,
  depth,
  style: { width, colourLevel },
}: {
  file: string;
  title: string;
  curve: readonly BankOption[];
  depth: string;
  style: BankStyle;
}): string {
  const bank = curve[0]?.bank;
  const cell = (text: string, wide: number): string => text.padStart(wide);
  const rows = curve.map((option) => {
    const worst = worstStress(option.state);
    const [amperes, kelvins] = [current(option), rise(option)];
    const numbers = [
      cell(String(option.bank.parallel), 10),
      cell(String(option.count), 7),
      cell(formatQuantity({ value: option.capacitance, dimension: 'capacitance' }), 12),
      cell(option.frequency === null ? '-' : formatQuantity({ value: option.frequency, dimension: 'frequency' }), 11),
      cell(amperes === null ? '-' : formatQuantity({ value: amperes, dimension: 'current' }), 9),
      cell(kelvins === null ? '-' : formatQuantity({ value: kelvins, dimension: 'temperatureRise', digits: 2 }), 8),
    ].join('');
    const word = option.state.verdict;
    const why = worst === undefined ? '' : ` ${worst.id.replace('capacitor-', '')}`;
    const line = `${numbers}  ${painted({ verdict: word, text: word, colourLevel })}`;
    return `${line}${why}`;
  });
  return [
    ...hanging({ text: title, first: `${file}  `, width }),
    '',
    ...hanging({ text: `${bank?.series ?? 1} in series of ${bank?.capacitor.name ?? ''}, coil as it is`, first: '  ', width }),
    '',
    `${cell('parallel', 10)}${cell('count', 7)}${cell('capacitance', 12)}${cell('frequency', 11)}${cell('each', 9)}${cell('rise', 8)}  verdict`,
    ...rows,
    '',
    ...hanging({
      text: `current and rise of the most loaded capacitor at the worst load and corner; switch-on and load removal in ${depth === 'time domain' ? 'the time domain, where it does not fail while running' : 'closed form'}. The capacitance changes along the list, and the frequency with it. The check that is furthest past its line is named without its capacitor-.`,
      first: '  ',
      width,
    }),
  ].join('\n');
}

const [wide, left, tall, gap] = [svgWidth, 90, 200, 50] as const;
const colours = { pass: '#2e7d32', warn: '#b8860b', fail: '#c0392b', 'not assessed': '#777777' } as const;
const marks = { pass: 'p', warn: 'w', fail: 'F', 'not assessed': '?' } as const;

/** The curve as a drawing: current and rise against the count in parallel, a letter a verdict. */
export function bankCurveSvg({ curve, title }: { curve: readonly BankOption[]; title: string }): string {
  const panels = [
    { name: 'current each', value: current, dimension: 'current' },
    { name: 'rise', value: rise, dimension: 'temperatureRise' },
  ] as const;
  const first = curve[0]?.bank.parallel ?? 0;
  const span = Math.max(1, (curve.at(-1)?.bank.parallel ?? 1) - first);
  const x = (option: BankOption): number => left + ((option.bank.parallel - first) * (wide - left - 40)) / span;
  const body = panels.map(({ name, value, dimension }, i) => {
    const top = Math.max(1e-9, ...curve.map((option) => value(option) ?? 0));
    const y0 = 45 + i * (tall + gap);
    const y = (number: number): number => y0 + tall * (1 - number / top);
    const points = curve.flatMap((option) => {
      const number = value(option);
      return number === null ? [] : [{ option, at: `${x(option).toFixed(1)},${y(number).toFixed(1)}`, y: y(number) }];
    });
    const letters = points.map(
      ({ option, y: height }) =>
        `<text x="${x(option).toFixed(1)}" y="${(height - 5).toFixed(1)}" text-anchor="middle" fill="${colours[option.state.verdict]}">${marks[option.state.verdict]}</text>`,
    );
    return `<g><text x="8" y="${y0 + 12}">${name}</text><text x="8" y="${y0 + 30}">${escaped(formatQuantity({ value: top, dimension }))}</text>
<line x1="${left}" x2="${wide - 40}" y1="${y0 + tall}" y2="${y0 + tall}" stroke="#888"/><polyline points="${points.map(({ at }) => at).join(' ')}" fill="none" stroke="#2b5d8a"/>${letters.join('')}</g>`;
  });
  const height = 45 + 2 * (tall + gap) + 20;
  const ends = `<text x="${left}" y="${height - 34}">${first}</text><text x="${wide - 40}" y="${height - 34}" text-anchor="end">${first + span} in parallel</text>`;
  const legend = `<text x="${left}" y="${height - 12}">p: passes, w: warns, F: fails, ?: not assessed</text>`;
  return svgDocument({ title, height, body: [...body, ends, legend].join('\n') });
}
