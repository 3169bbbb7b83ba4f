import { Chalk } from 'chalk';
import type { Verdict } from '../checks/judge.ts';
import type { BankOption, BankStudy, PartAnswer, SetBy } from '../studies/bank.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { bankLine, openSentences, openWords, pastWords, riseOf, usesWords, volumeWords } from './bank-words.ts';
import { hanging } from './wrap.ts';

/** How a table of banks may look. */
export interface BankStyle {
  readonly width: number;
  readonly colourLevel: 0 | 1;
}

/** A verdict in its colour; the word says the same. */
export function painted({ verdict, text, colourLevel }: { verdict: Verdict; text: string; colourLevel: 0 | 1 }): string {
  const chalk = new Chalk({ level: colourLevel });
  const colours = { pass: chalk.green, warn: chalk.yellow, fail: chalk.red, 'not assessed': chalk.bold } as const;
  return colours[verdict](text);
}

const deep = ' '.repeat(7);

/** What `bank FILE` prints: the project's own bank, the smallest bank of each part, the parts that cannot. */
export function bankText({ file, title, study, sort, style }: BankTextInput): string {
  const { now, answers } = study;
  const { width } = style;
  const passing = sorted(
    answers.filter(({ kind }) => kind === 'passes'),
    sort,
  );
  const open = sorted(
    answers.filter(({ kind }) => kind === 'open'),
    sort,
  );
  const none = answers.filter(({ kind }) => kind === 'none');
  const detail = (text: string): readonly string[] => hanging({ text, first: deep, width });
  const best = passing[0];
  return [
    ...hanging({ text: title, first: `${file}  `, width }),
    '',
    ...hanging({ text: wantedWords(study), first: '  ', width }),
    '',
    header,
    row({ option: now, lead: 'now' }),
    ...detail(usesWords(now.state)),
    ...verdictLines({ option: now, style }),
    ...block({ title: `smallest bank of each part that passes, by ${sort}`, answers: passing, style }),
    ...block({ title: 'neither fails nor warns, but not everything could be assessed', answers: open, style }),
    ...(none.length === 0 ? [] : ['', '  no bank of']),
    ...none.flatMap((answer) => noneLines({ answer, width })),
    '',
    ...hanging({ text: footnote(study), first: '  ', width }),
    '',
    ...(best?.kind === 'passes'
      ? [`write into ${file}, under tank:`, `  ${bankLine(best.option.bank)}`, `next: tankproof check ${file}`]
      : hanging({ text: noFitWords(study), first: '', width })),
  ].join('\n');
}

interface BankTextInput {
  readonly file: string;
  readonly title: string;
  readonly study: BankStudy;
  readonly sort: 'count' | 'volume';
  readonly style: BankStyle;
}

/** What is said where no part has a bank that passes. */
export function noFitWords({ answers, request }: BankStudy): string {
  const closer = request.depth === 'closed form' ? ': leave out --closed-form' : '';
  return answers.some(({ kind }) => kind === 'open')
    ? `no bank passes every check of the bank; those above are not assessed in full${closer}`
    : 'no capacitor fits: another part (--part, partsFolders), a wider --within, or a lower supply voltage';
}

const header = '  count  series × parallel  part                     capacitance    loss   rise';

function row({ option: { bank, count, capacitance, loss, state }, lead }: { option: BankOption; lead?: string }): string {
  const rise = riseOf(state);
  const cells = [
    `${lead ?? ''}${String(count).padStart(7 - (lead?.length ?? 0))}`,
    `${String(bank.series).padStart(8)} × ${String(bank.parallel).padEnd(8)}`,
    bank.capacitor.name.padEnd(23),
    formatQuantity({ value: capacitance, dimension: 'capacitance' }).padStart(12),
    (loss === null ? '-' : formatQuantity({ value: loss, dimension: 'power' })).padStart(8),
    (rise === null ? '-' : formatQuantity({ value: rise, dimension: 'temperatureRise', digits: 2 })).padStart(7),
  ];
  return `${cells[0]}${cells[1]} ${cells[2]}${cells[3]}${cells[4]}${cells[5]}`.trimEnd();
}

function verdictLines({ option: { state }, style: { width, colourLevel } }: { option: BankOption; style: BankStyle }): readonly string[] {
  const { verdict } = state;
  const words =
    verdict === 'pass' ? 'passes every check of the bank' : [pastWords(state), openWords(state)].filter((one) => one !== '').join('; ');
  const text = verdict === 'not assessed' ? `${verdict}: ${words}` : words;
  const [first = '', ...rest] = hanging({ text, first: deep, width });
  const word = /^ *(not assessed|\w+)/.exec(first)?.[1] ?? '';
  return [first.replace(word, painted({ verdict, text: word, colourLevel })), ...rest];
}

function block({ title, answers, style }: { title: string; answers: readonly PartAnswer[]; style: BankStyle }): readonly string[] {
  const { width } = style;
  const found = answers.flatMap((answer) => (answer.kind === 'none' ? [] : [answer]));
  if (found.length === 0) return [];
  // what is open for every bank of the list is told once
  const shared = found.map(({ option }) => openSentences(option.state)).reduce((a, b) => a.filter((reason) => b.includes(reason)));
  return [
    '',
    ...hanging({ text: title, first: '  ', width }),
    ...shared.flatMap((reason) => hanging({ text: reason, first: '  not assessed: ', width, indent: 4 })),
    '',
    ...found.flatMap(({ option, setBy }) => {
      const open = openWords(option.state, shared);
      return [
        row({ option }),
        ...hanging({ text: usesWords(option.state), first: deep, width }),
        ...hanging({ text: `${setByWords({ option, setBy })}; boxes ${volumeWords(option.volume)}`, first: deep, width }),
        ...(open === '' ? [] : hanging({ text: open, first: `${deep}not assessed: `, width, indent: deep.length })),
      ];
    }),
  ];
}

function setByWords({ option: { bank }, setBy: { parallel, series } }: { option: BankOption; setBy: SetBy }): string {
  const inParallel = `${bank.parallel} in parallel set by ${parallel}`;
  return series === undefined ? inParallel : `${bank.series} in series set by ${series}, ${inParallel}`;
}

function noneLines({ answer, width }: { answer: PartAnswer; width: number }): readonly string[] {
  if (answer.kind !== 'none') return [];
  const { why, nearest, beyond } = answer;
  const closest = nearest === undefined ? '' : `; nearest ${sizeWords(nearest)}: ${pastWords(nearest.state)}`;
  const more =
    beyond === undefined
      ? ''
      : `; from ${sizeWords(beyond)} on it passes while running, with more capacitance than wanted${frequencyWords(beyond)}: the coil must change, or a wider --within`;
  return hanging({ text: `${why}${closest}${more}`, first: `    ${answer.part.padEnd(24)} `, width, indent: 7 });
}

function frequencyWords({ frequency }: BankOption): string {
  return frequency === null ? '' : `, which lowers the frequency to ${formatQuantity({ value: frequency, dimension: 'frequency' })}`;
}

function sizeWords({ bank: { series, parallel }, count, capacitance }: BankOption): string {
  return `${series} × ${parallel} (${count}, ${formatQuantity({ value: capacitance, dimension: 'capacitance' })})`;
}

function sorted(answers: readonly PartAnswer[], sort: 'count' | 'volume'): readonly PartAnswer[] {
  const key = (answer: PartAnswer): number =>
    answer.kind === 'none' ? Infinity : sort === 'count' ? answer.option.count : (answer.option.volume ?? Infinity);
  return answers.toSorted((a, b) => key(a) - key(b) || a.part.localeCompare(b.part, 'en'));
}

function wantedWords({ wanted, request: { keep, within, capacitance }, now }: BankStudy): string {
  const share = formatQuantity({ value: within, dimension: 'ratio' });
  const frequency = now.frequency === null ? 'the frequency' : formatQuantity({ value: now.frequency, dimension: 'frequency' });
  if (keep === 'frequency') return `keeps ${frequency} within ${share} with the coil as it is (--keep, --within)`;
  const whose = capacitance === undefined ? 'what the bank has now' : '--capacitance';
  return `keeps ${formatQuantity({ value: wanted, dimension: 'capacitance' })} (${whose}) within ${share} (--within; 10 % moves the frequency by 5 %)`;
}

function footnote({ request: { depth } }: BankStudy): string {
  const events = depth === 'time domain' ? 'in the time domain' : 'in closed form';
  return `percent of the limit at the worst load and corner; peak voltage and slope at switch-on and load removal too, ${events}. A bank passes below each check's warning line. Loss is of the whole bank, rise of its most loaded capacitor; leads to every capacitor are taken as equal.`;
}
