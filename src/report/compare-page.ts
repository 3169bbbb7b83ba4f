import type { CheckChange } from '../studies/compare/checks.ts';
import type { Comparison } from '../studies/compare/comparison.ts';
import { failureTexts, type CompareFailure } from './compare-failures.ts';
import {
  fateCounts,
  headline,
  inputText,
  isTold,
  keyText,
  lineText,
  lostText,
  lostWords,
  marginText,
  quantityText,
  ratingTexts,
  shareText,
  valueText,
  verdictText,
} from './compare-words.ts';
import { isUnchanged, overallLine, type ComparedFile, type ComparedFiles } from './compared-files.ts';
import type { Block, Page } from './page.ts';
import { gravestVerdict } from './review-report.ts';

/** A comparison as a page, for a comment or a file. */
export function comparePage({ files, failed }: { files: ComparedFiles; failed: readonly CompareFailure[] }): Page {
  const told = files.files.filter((file) => !isUnchanged(file));
  const same = files.files.filter(isUnchanged).map(({ name }) => name);
  const notes = [
    ...(files.isFolder && same.length > 0 ? [`No difference: ${same.join(', ')}.`] : []),
    files.timed ? 'Starts and load changes in the time domain.' : 'Closed form: no start is run in the time domain.',
    ...files.foreign.map((folder) => `Parts of ${folder} are today’s on both sides: it lies outside of the repository.`),
    'Computed figures: they do not replace measurement, local codes or a licensed practitioner.',
  ];
  return {
    title: files.isFolder ? overallLine(files) : files.files.map((file) => titleOf(file)).join('; '),
    blocks: [
      ...failureBlocks({ files, failed }),
      ...told.flatMap((file) => fileBlocks({ file, isFolder: files.isFolder })),
      ...notes.map(paragraph),
    ],
  };
}

function failureBlocks({ files, failed }: { files: ComparedFiles; failed: readonly CompareFailure[] }): readonly Block[] {
  const items = failureTexts({ files, failed });
  return items.length === 0 ? [] : [{ kind: 'alert', text: 'Fails', items }];
}

function titleOf(file: ComparedFile): string {
  return file.kind === 'both' ? headline(file.comparison) : `${file.name}: ${file.kind}`;
}

function paragraph(text: string): Block {
  return { kind: 'paragraph', text };
}

function fileBlocks({ file, isFolder }: { file: ComparedFile; isFolder: boolean }): readonly Block[] {
  const heading: readonly Block[] = isFolder ? [{ kind: 'heading', text: file.name }] : [];
  if (file.kind === 'removed') return [...heading, paragraph('Removed, not checked any more.')];
  const verdict = gravestVerdict(file.after.results);
  if (file.kind === 'added') return [...heading, paragraph(`Added: ${verdict}.`)];
  const { before, after, comparison } = file;
  return [
    ...heading,
    ...(isFolder ? [paragraph(`${headline(comparison)}.`)] : []),
    paragraph(`Before: ${before.path}, ${gravestVerdict(before.results)}. After: ${after.path}, ${verdict}.`),
    ...inputBlocks(comparison),
    ...checkBlocks(comparison.checks),
    ...quantityBlocks(comparison),
    ...assumptionBlocks(comparison),
  ];
}

function inputBlocks({ inputs: { changes, rewritten }, ratings }: Comparison): readonly Block[] {
  const lists = [
    ...ratingTexts(ratings),
    ...(rewritten.length === 0 ? [] : [`same value, written in another way: ${rewritten.join(', ')}`]),
  ];
  return [
    ...(changes.length === 0
      ? []
      : [
          {
            kind: 'table' as const,
            caption: 'Changed inputs',
            columns: ['key', 'line', 'change'],
            rows: changes.map((change) => [keyText(change), lineText(change).replace('line ', ''), inputText(change)]),
          },
        ]),
    ...(lists.length === 0 ? [] : [{ kind: 'list' as const, items: lists }]),
  ];
}

function checkBlocks(checks: readonly CheckChange[]): readonly Block[] {
  const told = checks.filter(({ fate }) => fate !== 'same' && fate !== 'moved');
  const counts = fateCounts(checks);
  const rest = `${counts.same} checks stand as they did, ${counts.moved} moved by less than 0.05 %.`;
  if (told.length === 0) return [paragraph(rest)];
  const rows = told.map((change) => [change.id, verdictText(change), valueText(change), marginText(change), lostText(change)]);
  const reasons = told.flatMap(({ id, isGraver, after }) =>
    isGraver ? [`${id}: ${after!.case}${after!.reason === undefined ? '' : `; ${after!.reason}`}`] : [],
  );
  return [
    {
      kind: 'table',
      caption: `Checks, greatest loss first; ${lostWords}`,
      columns: ['check', 'verdict', 'value', 'room', 'change'],
      rows,
    },
    ...(reasons.length === 0 ? [] : [{ kind: 'list' as const, items: reasons }]),
    paragraph(rest),
  ];
}

function quantityBlocks({ quantities }: Comparison): readonly Block[] {
  const told = quantities.filter(isTold);
  if (told.length === 0) return [];
  const loads = [...new Set(told.map((change) => change.case))];
  const cell = (id: string, load: string): string => {
    const change = told.find((one) => one.id === id && one.case === load);
    return change === undefined ? '' : [quantityText(change), shareText(change)].filter((text) => text !== '').join(', ');
  };
  const rows = [...new Set(told.map(({ id }) => id))].map((id) => [id, ...loads.map((load) => cell(id, load))]);
  return [{ kind: 'table', caption: 'Quantities, nominal', columns: ['quantity', ...loads], rows }];
}

function assumptionBlocks({ assumptions: { before, after } }: Comparison): readonly Block[] {
  const items = [...after.map((text) => `assumed now: ${text}`), ...before.map((text) => `not assumed any more: ${text}`)];
  return items.length === 0 ? [] : [{ kind: 'list', items }];
}
