import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv } from 'ajv';
import { beforeAll, describe, expect, test } from 'vitest';
import { validateXML } from 'xmllint-wasm';
import { checkIds } from '../../src/checks/registry.ts';
import { isFailing } from '../../src/checks/waiver.ts';
import { defaultPolicies, InputError, reviewedFile } from '../../src/cli/engine.ts';
import { sha256 } from '../../src/cli/sha256.ts';
import { fileUri } from '../../src/report/file-uri.ts';
import { junitXml } from '../../src/report/junit.ts';
import { reviewMarkdown } from '../../src/report/review-markdown.ts';
import { isReviewed, resultsOf, type FormatOptions, type Reviewed } from '../../src/report/reviewed.ts';
import { sarif } from '../../src/report/sarif.ts';
import { edited, measuredPad } from '../checks/reviewed.ts';
import { fileWith, root } from '../cli/ran.ts';

const schemas = join(import.meta.dirname, 'schemas');
const options: FormatOptions = {
  version: '1.2.3',
  all: false,
  failing: ['fail'],
  notes: ['one note'],
  several: true,
  time: '2027-03-31T12:00:00',
  sha256,
};

/** Reviews a file in closed form, as `check` does. */
function reviewOfFile(file: string): Reviewed {
  try {
    return { file, report: reviewedFile({ path: file, root, policies: defaultPolicies(root), closedForm: true }) };
  } catch (error) {
    if (error instanceof InputError) return { file, problems: error.problems };
    throw error;
  }
}

interface SarifResult {
  ruleId: string;
  ruleIndex: number;
  kind: string;
  level: string;
  message: { text: string };
  locations: {
    physicalLocation: {
      artifactLocation: { uri: string; uriBaseId?: string };
      region: Record<'startLine' | 'startColumn' | 'endColumn', number>;
    };
  }[];
  suppressions?: { status: string; justification: string }[];
}
interface SarifLog {
  runs: [
    {
      tool: { driver: { rules: { id: string; help: { text: string; markdown: string } }[] } };
      invocations: [{ executionSuccessful: boolean; toolExecutionNotifications: { message: { text: string } }[] }];
      results: SarifResult[];
    },
  ];
}

const parsed = (reviewed: readonly Reviewed[], changes: Partial<FormatOptions> = {}): SarifLog =>
  JSON.parse(sarif(reviewed, { ...options, ...changes })) as SarifLog;

let reviewed: readonly Reviewed[];
let awkward: Reviewed;
beforeAll(() => {
  const names = ['bolt-heater', 'charging-pad', 'live-rail-lamp'];
  awkward = reviewOfFile(
    fileWith(edited(measuredPad, ['title: Path', 'title: "<Päd> & \\"50 %\\" ]]> \\uD83D\\uDD25"\n# Path']), 'a b & <c>.yaml'),
  );
  reviewed = [...names.map((name) => join('examples', `${name}.yaml`)), 'missing & gone.yaml', fileWith('tankproof: 1\nsuply: {}\n')]
    .map((file) => reviewOfFile(file.startsWith('examples') ? join(root, file) : file))
    .concat(awkward);
});

describe('SARIF', () => {
  // the draft-04 form differs from draft-07 in the name of its id alone
  const {
    $schema: _draft,
    id,
    ...schema
  } = JSON.parse(readFileSync(join(schemas, 'sarif-2.1.0-rtm.5.json'), 'utf8')) as Record<string, unknown>;
  const ajv = new Ajv({ allErrors: true, strict: false, unicodeRegExp: false });
  ajv.addFormat('uri', (text: string) => URL.canParse(text));
  ajv.addFormat('uri-reference', (text: string) => /^[!#-;=?-Z[\]_a-z~]*$/.test(text) && URL.canParse(text, 'file:///x/'));
  ajv.addFormat('date-time', /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d/);
  const validate = ajv.compile({ $id: String(id), ...schema });

  test.each([false, true])('satisfies the OASIS schema, all results %s', (all) => {
    void validate(parsed(reviewed, { all }));
    expect(validate.errors ?? []).toEqual([]);
    // the schema does refuse
    expect(validate({ version: '2.1.0', runs: [{ results: [] }] })).toBe(false);
    expect(validate({ ...parsed([]), runs: [{ ...parsed([]).runs[0], results: [{ message: { text: '' }, level: 'grave' }] }] })).toBe(
      false,
    );
  });

  test('the place of a result is the YAML line that set its value', () => {
    const { results } = parsed([reviewOfFile(join(root, 'examples', 'bolt-heater.yaml'))], { all: true }).runs[0];
    const words = (ruleId: string): string => {
      const { physicalLocation } = results.find((result) => result.ruleId === ruleId)!.locations[0]!;
      const lines = readFileSync(fileURLToPath(physicalLocation.artifactLocation.uri), 'utf8').split('\n');
      const { startLine, startColumn, endColumn } = physicalLocation.region;
      const line = lines[startLine - 1]!;
      return `${line.slice(0, startColumn - 1).trim()} | ${line.slice(startColumn - 1, endColumn - 1)}`;
    };
    expect(words('capacitor-current')).toBe('parallel: | 6');
    expect(words('switch-peak-voltage')).toMatch(/^voltage: \| 24 V/);
    expect(words('coil-temperature')).toMatch(/^conductor: \| \{shape: tube, /);
    expect(words('rail-overshoot')).toMatch(/^ \| voltage: 24 V/);
    for (const { ruleId } of results) expect(words(ruleId)).toMatch(/^[^#]*\| \S/);
  });

  test('what warns or fails alone, everything if asked for; kinds and levels as the standard has them', () => {
    const results = resultsOf(reviewed);
    const count = (...verdicts: string[]): number => results.filter(({ verdict }) => verdicts.includes(verdict)).length;
    expect(parsed(reviewed).runs[0].results).toHaveLength(count('fail', 'warn'));
    expect(parsed(reviewed, { failing: ['fail', 'not assessed'] }).runs[0].results).toHaveLength(count('fail', 'warn', 'not assessed'));
    const all = parsed(reviewed, { all: true }).runs[0].results;
    expect(all).toHaveLength(results.length);
    // SARIF 2.1.0, 3.27.10: a kind other than fail has the level none
    for (const { kind, level } of all) expect(kind === 'fail').toBe(level !== 'none');
    expect(count('fail') * count('not assessed') * count('pass')).toBeGreaterThan(0);
  });

  test('every check is a rule with the help of explain, and results point at theirs', () => {
    const [{ tool, results }] = parsed(reviewed).runs;
    expect(tool.driver.rules.map((rule) => rule.id)).toEqual(checkIds);
    for (const { help } of tool.driver.rules) expect(help.text).toMatch(/Why: [^]+Formula: [^]+tankproof explain/);
    for (const { ruleId, ruleIndex } of results) expect(tool.driver.rules[ruleIndex]?.id).toBe(ruleId);
  });

  test('a file that could not be reviewed is told as a notification', () => {
    const [invocation] = parsed(reviewed).runs[0].invocations;
    expect(invocation.executionSuccessful).toBe(false);
    const told = invocation.toolExecutionNotifications.map(({ message }) => message.text).join('\n');
    expect(told).toContain('missing & gone.yaml does not exist');
    expect(told).toContain('suply');
  });

  test.each([
    ['pads/my pad.yaml', 'pads/my%20pad.yaml', false],
    ['.\\pads\\a.yaml', 'pads/a.yaml', false],
    ['C:\\pads\\a#b.yaml', 'file:///C:/pads/a%23b.yaml', true],
    ['/pads/ä.yaml', 'file:///pads/%C3%A4.yaml', true],
    ['../a:b.yaml', '../a%3Ab.yaml', false],
    ['a:b.yaml', 'a%3Ab.yaml', false],
    ['\uD800.yaml', '%EF%BF%BD.yaml', false],
  ])('the URI of %j', (path, uri, isAbsolute) => {
    expect(fileUri(path)).toEqual({ uri, isAbsolute });
  });
});

describe('JUnit XML', () => {
  const valid = async (xml: string, name: string): Promise<readonly string[]> => {
    const { errors } = await validateXML({
      xml: [{ fileName: 'review.xml', contents: xml }],
      schema: [{ fileName: name, contents: readFileSync(join(schemas, name), 'utf8') }],
    });
    return errors.map(({ message }) => message);
  };

  test('satisfies the schema of Jenkins', async () => {
    const xml = junitXml(reviewed, options);
    expect(await valid(xml, 'jenkins-junit.xsd')).toEqual([]);
    expect(xml).toContain('<skipped>');
    expect(await valid(xml.replace('<testcase name=', '<testcase nome='), 'jenkins-junit.xsd')).not.toEqual([]);
  });

  test('satisfies that of Ant, which has no word for what was not assessed', async () => {
    const assessed = (one: Reviewed): Reviewed =>
      isReviewed(one)
        ? { ...one, report: { ...one.report, results: one.report.results.filter(({ verdict }) => verdict !== 'not assessed') } }
        : one;
    const xml = junitXml(reviewed.map(assessed), options);
    expect(await valid(xml, 'ant-junit.xsd')).toEqual([]);
    expect(await valid(xml.replace(' hostname="localhost"', ''), 'ant-junit.xsd')).not.toEqual([]);
    // with what is not assessed as a failure it has
    expect(await valid(junitXml(reviewed, { ...options, failing: ['fail', 'not assessed'] }), 'ant-junit.xsd')).toEqual([]);
  });

  test('counts as failures what fails the run', () => {
    for (const failing of [['fail'], ['fail', 'warn'], ['fail', 'not assessed']] as const) {
      const xml = junitXml(reviewed, { ...options, failing });
      const failed = resultsOf(reviewed).filter((result) => isFailing({ result, failing }));
      expect([...xml.matchAll(/<failure /g)]).toHaveLength(failed.length);
      const sum = [...xml.matchAll(/ failures="(\d+)"/g)].reduce((total, [, n]) => total + Number(n), 0);
      expect(sum).toBe(failed.length);
    }
  });

  test('no sign of a title or a path breaks it', () => {
    const title = 'a\u0000b\u001B[31m <x> & "y" \uD800 \uFFFE';
    expect(isReviewed(awkward)).toBe(true);
    if (!isReviewed(awkward)) return;
    const xml = junitXml([{ file: title, report: { ...awkward.report, file: title, title } }], options);
    expect(xml).not.toMatch(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/);
    expect(xml).toContain('a\uFFFDb\uFFFD[31m &lt;x&gt; &amp; &quot;y&quot; \uFFFD \uFFFD');
  });
});

describe('Markdown', () => {
  test('has a table of the files, the results that need a look, and the cautions', () => {
    const text = reviewMarkdown(reviewed, options);
    for (const one of reviewed)
      if (isReviewed(one)) for (const caution of one.report.cautions) expect(text).toContain(caution.slice(0, 20));
    expect(text).toMatch(/^\| capacitor-current \| fail \| 10\.9 A \| at most 6 A \| −82 % \|/m);
    expect(text).toContain('one note');
    // every row of a table has as many cells as its head
    for (const block of text.split('\n\n').filter((one) => one.startsWith('|'))) {
      const cells = block
        .split('\n')
        .filter((line) => line.startsWith('|'))
        .map((line) => line.split(/(?<!\\)\|/).length);
      expect(new Set(cells).size).toBe(1);
    }
  });
});

test('the schemas are there, with where they are from', () => {
  for (const name of ['sarif-2.1.0-rtm.5.json', 'jenkins-junit.xsd', 'ant-junit.xsd']) {
    expect(existsSync(join(schemas, name))).toBe(true);
    expect(readFileSync(join(schemas, 'README.md'), 'utf8')).toContain(`\`${name}\``);
  }
});
