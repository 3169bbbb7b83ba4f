import type { Verdict } from '../checks/judge.ts';
import type { CheckChange } from '../studies/compare/checks.ts';
import type { Comparison } from '../studies/compare/comparison.ts';
import { failureTexts, type CompareFailure } from './compare-failures.ts';
import { quantityLines } from './compare-quantities.ts';
import {
  fateCounts,
  headline,
  inputText,
  keyText,
  lineText,
  lostText,
  lostWords,
  marginText,
  ratingTexts,
  valueText,
  verdictNow,
  verdictText,
} from './compare-words.ts';
import { isUnchanged, overallLine, type ComparedFile, type ComparedFiles } from './compared-files.ts';
import { painter } from './paint.ts';
import { gravestVerdict } from './review-report.ts';
import type { TerminalStyle } from './terminal.ts';
import { hanging, wrapped } from './wrap.ts';

interface Look {
  readonly width: number;
  readonly paint: (verdict: Verdict, text: string) => string;
  /** Tell what hardly moved, too. */
  readonly all: boolean;
}

const indent = '    ';

/** A comparison as text: what it came to, what was changed, what that did to every margin and quantity, and why it fails. */
export function compareText({
  files,
  failed,
  style,
}: {
  files: ComparedFiles;
  failed: readonly CompareFailure[];
  style: TerminalStyle;
}): string {
  const look: Look = { width: style.width, paint: painter(style.colourLevel), all: style.all };
  const notes = [
    ...(files.timed ? [] : ['closed form: no start is run in the time domain']),
    ...files.foreign.map((folder) => `parts of ${folder} are today’s on both sides: it lies outside of the repository`),
  ];
  const end = [
    ...notes.flatMap((text) => hanging({ text, first: '  ', width: look.width })),
    ...failureTexts({ files, failed }).flatMap((text) => hanging({ text, first: '', width: look.width, indent: 2 })),
  ];
  const lines = files.isFolder ? folderLines({ files, look }) : files.files.flatMap((file) => fileLines({ file, look }));
  return [...lines, ...(end.length === 0 ? [] : ['', ...end])].join('\n');
}

function folderLines({ files, look }: { files: ComparedFiles; look: Look }): readonly string[] {
  const { width } = look;
  const told = files.files.filter((file) => !isUnchanged(file));
  const same = files.files.filter(isUnchanged).map(({ name }) => name);
  return [
    ...wrapped({ text: overallLine(files), width }),
    ...told.flatMap((file) => ['', ...fileLines({ file, look, name: `${file.name}  ` })]),
    ...(same.length === 0 || told.length === 0 ? [] : ['', ...hanging({ text: same.join(', '), first: 'no difference: ', width })]),
  ];
}

function fileLines({ file, look, name = '' }: { file: ComparedFile; look: Look; name?: string }): readonly string[] {
  const { width } = look;
  if (file.kind === 'removed') return wrapped({ text: `${file.name}  removed, not checked any more`, width });
  const gravest = gravestVerdict(file.after.results);
  if (file.kind === 'added') return wrapped({ text: `${file.name}  added, ${gravest}`, width });
  const was = gravestVerdict(file.before.results);
  const paths = [`old  ${file.before.path}: ${was}`, `new  ${file.after.path}: ${gravest}`];
  return [
    ...hanging({ text: headline(file.comparison), first: name, width, indent: 0 }),
    ...paths.flatMap((text) => hanging({ text, first: '  ', width, indent: 7 })),
    ...inputLines({ comparison: file.comparison, width }),
    ...checkLines({ checks: file.comparison.checks, look }),
    ...quantityLines({ quantities: file.comparison.quantities, width, all: look.all }),
    ...assumptionLines({ comparison: file.comparison, width }),
  ];
}

function inputLines({ comparison: { inputs, ratings }, width }: { comparison: Comparison; width: number }): readonly string[] {
  const { changes, rewritten } = inputs;
  if (changes.length + ratings.length + rewritten.length === 0) return [];
  const names = Math.max(0, ...changes.map((change) => keyText(change).length));
  const places = Math.max(0, ...changes.map((change) => lineText(change).length));
  const first = (change: Comparison['inputs']['changes'][number]): string =>
    `${indent}${keyText(change).padEnd(names)}  ${lineText(change).padEnd(places)}  `;
  const others = [
    ...ratingTexts(ratings),
    ...(rewritten.length === 0 ? [] : [`same value, written in another way: ${rewritten.join(', ')}`]),
  ];
  return [
    '',
    '  changed inputs',
    ...changes.flatMap((change) => behind({ text: inputText(change), first: first(change), width })),
    ...others.flatMap((text) => hanging({ text, first: indent, width, indent: indent.length + 4 })),
  ];
}

/** A text behind its key, or under it where the key leaves it too little room. */
function behind({ text, first, width }: { text: string; first: string; width: number }): readonly string[] {
  const further = indent.length + 4;
  const beside = hanging({ text, first, width, indent: further });
  if (beside.every((line) => line.length <= width)) return beside;
  return [first.trimEnd(), ...hanging({ text, first: ' '.repeat(further), width })];
}

function checkLines({ checks, look }: { checks: readonly CheckChange[]; look: Look }): readonly string[] {
  const told = checks.filter(({ fate }) => look.all || (fate !== 'same' && fate !== 'moved'));
  const { moved, same } = fateCounts(checks);
  const rest = [
    ...(look.all || moved === 0 ? [] : [`${moved} moved by less than 0.05 %`]),
    ...(look.all || same === 0 ? [] : [`${same} ${same === 1 ? 'stands' : 'stand'} as before`]),
  ].join(', ');
  if (told.length === 0) return ['', `  checks: ${rest}`];
  const columns = {
    verdict: Math.max('verdict'.length, widest(told, verdictText)),
    id: widest(told, ({ id }) => id),
    lost: Math.max('change'.length, widest(told, lostText)),
    margin: Math.max('room'.length, widest(told, marginText)),
  };
  const row = columns.verdict + columns.id + columns.lost + columns.margin + widest(told, valueText);
  const oneLine = indent.length + row + 8 <= look.width;
  const cells = [
    'verdict'.padEnd(columns.verdict),
    'check'.padEnd(columns.id),
    'change'.padStart(columns.lost),
    'room'.padEnd(columns.margin),
  ];
  return [
    '',
    '  checks, greatest loss first',
    `${indent}${[...cells, ...(oneLine ? ['value'] : [])].join('  ')}`.trimEnd(),
    ...told.flatMap((change) => checkRow({ change, columns, oneLine, look })),
    ...(rest === '' ? [] : [`${indent}${rest} (--all shows them)`]),
    ...hanging({ text: lostWords, first: indent, width: look.width }),
  ];
}

function widest(changes: readonly CheckChange[], text: (change: CheckChange) => string): number {
  return Math.max(...changes.map((change) => text(change).length));
}

function checkRow({
  change,
  columns,
  oneLine,
  look: { width, paint },
}: {
  change: CheckChange;
  columns: Readonly<Record<'verdict' | 'id' | 'lost' | 'margin', number>>;
  oneLine: boolean;
  look: Look;
}): readonly string[] {
  const { after, isGraver, fate } = change;
  const verdict = verdictText(change).padEnd(columns.verdict);
  const numbers = `${change.id.padEnd(columns.id)}  ${lostText(change).padStart(columns.lost)}  ${marginText(change).padEnd(columns.margin)}`;
  const first = `${indent}${paint(verdictNow(change), verdict)}  ${numbers}${oneLine ? `  ${valueText(change)}` : ''}`.trimEnd();
  const deep = ' '.repeat(indent.length + columns.verdict + 2);
  const isExplained = isGraver || (after?.value === null && fate !== 'same');
  const details = [oneLine ? '' : valueText(change), ...(isExplained ? [after?.case ?? '', after?.reason ?? ''] : [])];
  return [first, ...details.filter((text) => text !== '').flatMap((text) => hanging({ text, first: deep, width }))];
}

function assumptionLines({ comparison: { assumptions }, width }: { comparison: Comparison; width: number }): readonly string[] {
  const lines = (title: string, texts: readonly string[]): readonly string[] =>
    texts.length === 0 ? [] : ['', `  ${title}`, ...texts.flatMap((text) => hanging({ text, first: `${indent}- `, width }))];
  return [...lines('assumed now', assumptions.after), ...lines('not assumed any more', assumptions.before)];
}
