import type { Result } from '../checks/result.ts';
import { isFailing } from '../checks/waiver.ts';
import { oneLine, resultDetails, resultSentence } from './result-words.ts';
import type { ReviewReport } from './review-report.ts';
import { isReviewed, type FormatOptions, type RefusedFile, type Reviewed } from './reviewed.ts';

interface Suite {
  readonly name: string;
  readonly cases: readonly string[];
  readonly failures: number;
  readonly errors: number;
  readonly skipped: number;
  readonly properties: readonly (readonly [string, string])[];
  readonly said: readonly string[];
}

/**
 * A review as JUnit XML: a suite a file, a case a check. What fails the run is a failure, what was not assessed is skipped, and what
 * only warns, or is waived, passes and is told in the output of its suite. A file that could not be reviewed is a suite with an error.
 */
export function junitXml(reviewed: readonly Reviewed[], options: FormatOptions): string {
  const suites = reviewed.map((one) => (isReviewed(one) ? reportSuite(one.report, options) : refusedSuite(one, options)));
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<!-- written by tankproof -->',
    '<testsuites>',
    ...suites.map((suite, i) => suiteXml({ suite, id: i, time: options.time })),
    '</testsuites>',
    '',
  ].join('\n');
}

function reportSuite({ file, title, results }: ReviewReport, { failing, version, notes }: FormatOptions): Suite {
  const name = oneLine(file);
  const failed = results.filter((result) => isFailing({ result, failing }));
  const skipped = results.filter((result) => result.verdict === 'not assessed' && !failed.includes(result));
  const told = results.filter((result) => result.verdict !== 'pass' && !failed.includes(result));
  return {
    name,
    failures: failed.length,
    errors: 0,
    skipped: skipped.length,
    properties: [
      ['tankproof', version],
      ['title', oneLine(title)],
    ],
    said: [...notes, ...told.map((result) => `${result.id}: ${resultSentence(result)}\n  ${resultDetails(result).join('\n  ')}`)],
    cases: results.map((result) =>
      caseXml({ name: result.id, suite: name, inner: outcomeXml({ result, failed: failed.includes(result) }) }),
    ),
  };
}

function outcomeXml({ result, failed }: { result: Result; failed: boolean }): string {
  if (failed)
    return failureXml({
      element: 'failure',
      type: result.verdict,
      message: resultSentence(result),
      text: resultDetails(result).join('\n'),
    });
  return result.verdict === 'not assessed' ? `<skipped>${escaped(resultSentence(result))}</skipped>` : '';
}

function refusedSuite({ file, problems }: RefusedFile, { version }: FormatOptions): Suite {
  const name = oneLine(file) || 'a file without a name';
  return {
    name,
    failures: 0,
    errors: problems.length,
    skipped: 0,
    properties: [['tankproof', version]],
    said: [],
    cases: problems.map(({ id, message, help, at }) => {
      const place = at === undefined ? [] : [`${at.path}:${at.line}:${at.column}`];
      const text = [...place, ...(help === undefined ? [] : [help])].join('\n');
      return caseXml({ name: 'project file', suite: name, inner: failureXml({ element: 'error', type: id, message, text }) });
    }),
  };
}

function suiteXml({ suite, id, time }: { suite: Suite; id: number; time: string }): string {
  const { name, cases, failures, errors, skipped, properties, said } = suite;
  // only one of the two common schemas knows `skipped`
  const counts = `tests="${cases.length}" failures="${failures}" errors="${errors}"${skipped === 0 ? '' : ` skipped="${skipped}"`}`;
  return [
    `  <testsuite name="${escaped(name)}" package="tankproof" id="${id}" hostname="localhost" timestamp="${time}" time="0" ${counts}>`,
    '    <properties>',
    ...properties.map(([key, value]) => `      <property name="${key}" value="${escaped(value)}"/>`),
    '    </properties>',
    ...cases,
    `    <system-out>${escaped(said.join('\n'))}</system-out>`,
    '    <system-err></system-err>',
    '  </testsuite>',
  ].join('\n');
}

function caseXml({ name, suite, inner }: { name: string; suite: string; inner: string }): string {
  const opened = `    <testcase name="${escaped(name)}" classname="${escaped(suite)}" time="0"`;
  return inner === '' ? `${opened}/>` : `${opened}>${inner}</testcase>`;
}

function failureXml({ element, type, message, text }: { element: string; type: string; message: string; text: string }): string {
  return `<${element} type="${escaped(type)}" message="${escaped(oneLine(message))}">${escaped(text)}</${element}>`;
}

/** Text as it may stand in XML 1.0, which has no form for most control characters and for half of a pair. */
function escaped(text: string): string {
  return [...text]
    .map((char) => (/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/u.test(char) ? '\uFFFD' : char))
    .join('')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
