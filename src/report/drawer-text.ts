import type { MixedBank } from '../driver/mixed-bank.ts';
import type { BankRequest } from '../studies/bank.ts';
import type { DrawerAnswer, DrawerBank } from '../studies/drawer.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { bankLine, openWords, pastWords, usesWords } from './bank-words.ts';
import { painted, type BankStyle } from './bank-text.ts';
import { hanging } from './wrap.ts';

const deep = ' '.repeat(7);

/** Strings of a mixed bank in words: `2 in series, 8 strings of pp-box-330n-630v and 3 of pp-box-100n-630v`. */
export function mixWords({ members, series }: MixedBank): string {
  const [first, ...rest] = members;
  if (first === undefined) return '';
  const kind = series === 1 ? 'in parallel' : `strings of ${series} in series`;
  return [
    `${first.strings} ${series === 1 ? '×' : 'strings ×'} ${first.capacitor.name}`,
    ...rest.map(({ strings, capacitor }) => `${strings} × ${capacitor.name}`),
  ]
    .join(' + ')
    .concat(` (${kind})`);
}

/** What `bank FILE --have …` prints: the smallest bank of what is there, for each rated voltage. */
export function drawerText({
  file,
  title,
  answers,
  request,
  wanted,
  style,
}: {
  file: string;
  title: string;
  answers: readonly DrawerAnswer[];
  request: BankRequest;
  wanted: number;
  style: BankStyle;
}): string {
  const { width, colourLevel } = style;
  const kept = request.keep === 'frequency' ? 'the frequency' : formatQuantity({ value: wanted, dimension: 'capacitance' });
  const within = formatQuantity({ value: request.within, dimension: 'ratio' });
  return [
    ...hanging({ text: title, first: `${file}  `, width }),
    '',
    ...hanging({
      text: `smallest bank of what is there that keeps ${kept} within ${within}; parts of one rated dc voltage stand in parallel, each with its share of the current by its capacitance`,
      first: '  ',
      width,
    }),
    ...answers.flatMap((answer) => ['', ...answerLines({ answer, width, colourLevel })]),
    '',
    ...hanging({
      text: `percent of the limit at the worst load and corner, switch-on and load removal ${request.depth === 'time domain' ? 'in the time domain' : 'in closed form'}; of several parts the one nearest to its limit. Leads to every capacitor are taken as equal.`,
      first: '  ',
      width,
    }),
  ].join('\n');
}

function answerLines({ answer, width, colourLevel }: { answer: DrawerAnswer; width: number; colourLevel: 0 | 1 }): readonly string[] {
  const { kind, bank, nearest, why, parts } = answer;
  const word = ({ passes: 'pass', open: 'not assessed', none: 'fail' } as const)[kind];
  const painting = (lines: readonly string[]): readonly string[] =>
    lines.map((line, i) => (i === 0 ? line.replace(word, painted({ verdict: word, text: word, colourLevel })) : line));
  if (bank === undefined) {
    const closest = nearest === undefined ? '' : `; nearest ${nearest.count}: ${mixWords(nearest.mix)}: ${pastWords(nearest.state.whole)}`;
    return painting(hanging({ text: `${parts.join(', ')}: ${why ?? ''}${closest}`, first: `  ${word}  `, width, indent: deep.length }));
  }
  const size = `${bank.count} capacitors, ${formatQuantity({ value: bank.capacitance, dimension: 'capacitance' })}: ${mixWords(bank.mix)}`;
  const open = openWords(bank.state.whole);
  return [
    ...painting(hanging({ text: size, first: `  ${word}  `, width, indent: deep.length })),
    ...memberLines({ bank, width }),
    ...(open === '' ? [] : hanging({ text: `not assessed: ${open}`, first: deep, width })),
    ...hanging({ text: writeWords(bank), first: deep, width }),
  ];
}

function memberLines({ bank: { mix, state }, width }: { bank: DrawerBank; width: number }): readonly string[] {
  return mix.members.flatMap(({ capacitor }, i) => {
    const member = state.members[i];
    return member === undefined
      ? []
      : hanging({ text: usesWords(member), first: `${deep}${capacitor.name}: `, width, indent: deep.length + 2 });
  });
}

function writeWords({ mix: { members, series, cooling } }: DrawerBank): string {
  const [only, ...others] = members;
  if (only === undefined) return '';
  const { capacitor, strings } = only;
  if (others.length === 0) return bankLine({ capacitor, series, parallel: strings, cooling });
  const unit = capacitor.ratings.capacitance?.value ?? 1;
  const whole = members.reduce((sum, member) => sum + member.strings * (member.capacitor.ratings.capacitance?.value ?? 0), 0);
  const parallel = Math.round(whole / unit);
  return `the project file holds one part; for the other checks nearly the same: ${bankLine({ capacitor, series, parallel, cooling })}`;
}
