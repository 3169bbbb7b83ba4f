import { explained } from '../checks/registry.ts';
import type { Verdict } from '../checks/judge.ts';
import type { Result } from '../checks/result.ts';
import { isFailing, isWaived } from '../checks/waiver.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import type { Location } from '../source/location.ts';
import { unitOf } from '../units/dimensions-table.ts';
import { fileUri } from './file-uri.ts';
import { resultDetails, resultSentence } from './result-words.ts';
import { isReviewed, resultsOf, type FormatOptions, type Reviewed } from './reviewed.ts';

/** How SARIF calls the verdicts: what is no finding has the level none. */
const kinds: Readonly<Record<Verdict, { readonly kind: string; readonly level: string }>> = {
  fail: { kind: 'fail', level: 'error' },
  warn: { kind: 'fail', level: 'warning' },
  'not assessed': { kind: 'open', level: 'none' },
  pass: { kind: 'pass', level: 'none' },
};

/** Names the folder that relative paths start from. */
const base = '%SRCROOT%';

/**
 * A review as SARIF 2.1.0: a rule a check, with the help of `explain`; a result for what warns or fails (everything with `all`) at the
 * place that set the value. A file that could not be reviewed is a notification of the run.
 */
export function sarif(reviewed: readonly Reviewed[], { version, all, failing, notes }: FormatOptions): string {
  const told = resultsOf(reviewed).filter(
    (result) => all || result.verdict === 'fail' || result.verdict === 'warn' || isFailing({ result, failing }),
  );
  const problems = reviewed.flatMap((one) => (isReviewed(one) ? [] : one.problems.map((problem) => ({ problem, file: one.file }))));
  const log = {
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'tankproof', version, semanticVersion: version, rules: explained.map(rule) } },
        columnKind: 'utf16CodeUnits',
        originalUriBaseIds: { [base]: { description: { text: 'the folder in which tankproof was started' } } },
        invocations: [
          {
            executionSuccessful: problems.length === 0,
            toolExecutionNotifications: problems.map(notification),
            toolConfigurationNotifications: notes.map((text) => ({ level: 'note', message: { text } })),
          },
        ],
        results: told.map(resultJson),
      },
    ],
  };
  return `${JSON.stringify(log, undefined, 2)}\n`;
}

/** What `explain` says of a check, as the rule of it. */
function rule({ id, part, title, docs: { what, why, formula, source, remedy } }: (typeof explained)[number]): object {
  const rows = Object.entries({ Why: why, Formula: formula, Source: source, Remedy: remedy }).filter(([, text]) => text !== '');
  return {
    id,
    shortDescription: { text: title },
    fullDescription: { text: what },
    help: {
      text: [what, ...rows.map(([name, text]) => `${name}: ${text}`), `tankproof explain ${id}`].join('\n\n'),
      markdown: [what, ...rows.map(([name, text]) => `**${name}** ${markdown(text)}`), `\`tankproof explain ${id}\``].join('\n\n'),
    },
    defaultConfiguration: { level: 'error' },
    properties: { tags: [part] },
  };
}

/** Signs that Markdown would read as its own. */
function markdown(text: string): string {
  return text.replaceAll(/[\\`*_[\]<>]/g, (sign) => `\\${sign}`);
}

function resultJson(result: Result): object {
  const { id, verdict, at, value, limit, margin, dimension, case: where, waiver } = result;
  const unit = unitOf(dimension);
  return {
    ruleId: id,
    ruleIndex: explained.findIndex((check) => check.id === id),
    ...kinds[verdict],
    message: { text: [resultSentence(result), ...resultDetails(result)].join('\n') },
    locations: [location(at)],
    partialFingerprints: { 'fileAndCheck/v1': `${fileUri(at.path).uri}#${id}` },
    ...(waiver === undefined || !isWaived(result)
      ? {}
      : { suppressions: [{ kind: 'external', status: 'accepted', justification: `${waiver.reason}, until ${waiver.expires}` }] }),
    properties: { verdict, value, limit, unit, margin, case: where },
  };
}

function notification({ problem: { id, message, help, at }, file }: { problem: Diagnostic; file: string }): object {
  return {
    descriptor: { id },
    level: 'error',
    message: { text: help === undefined ? message : `${message}; ${help}` },
    ...(at !== undefined
      ? { locations: [location(at)] }
      : file === ''
        ? {}
        : { locations: [{ physicalLocation: { artifactLocation: artifact(file) } }] }),
  };
}

function location({ path, line, column, length }: Location): object {
  const region = { startLine: line, startColumn: column, endColumn: column + Math.max(1, length) };
  return { physicalLocation: { artifactLocation: artifact(path), region } };
}

function artifact(path: string): object {
  const { uri, isAbsolute } = fileUri(path);
  return isAbsolute ? { uri } : { uri, uriBaseId: base };
}
