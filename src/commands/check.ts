import { string as stringArg } from '@oclif/core/args';
import { boolean, string } from '@oclif/core/flags';
import type { Verdict } from '../checks/judge.ts';
import type { Result } from '../checks/result.ts';
import { BaseCommand } from '../cli/base-command.ts';
import {
  dayOf,
  hanging,
  isFailing,
  isReviewed,
  limitsFor,
  namedFiles,
  namedOutputs,
  onlyNotes,
  reviewAll,
  reviewFormats,
  reviewJson,
  reviewSummary,
  sha256,
  skippedNotes,
  terminalReport,
  waiverNotes,
  wantedChecks,
  writeAll,
} from '../cli/engine.ts';
import { exitStatus, type ExitStatus } from '../cli/exit-status.ts';
import { reportOnly } from '../cli/report-only.ts';
import { streamLook } from '../cli/terminal.ts';
import type { Reviewed } from '../report/reviewed.ts';

export default class Check extends BaseCommand {
  static override summary = 'Will each part survive, will it start? Checks project files against the ratings of their parts.';
  static override description = `Computes every part's stress while running, at switch-on and at load removal, for every load and every corner of the tolerances, and says
pass, warn, fail or not assessed with the reason and the remedy. The figures do not replace measurement, local codes or a licensed practitioner.

Of a folder it checks all project files in it and below: YAML files with a key tankproof. Several files are checked over the cores; a file that cannot be read
does not hide the others.

Exit status: 0 nothing failed, 1 a check failed, 2 could not run, 70 a bug of tankproof. Several files: the highest.`;
  static override examples = [
    '<%= config.bin %> check pad.yaml',
    '<%= config.bin %> check pad.yaml -o review.html',
    '<%= config.bin %> check pads "coils/**/*.yaml" --fail-on warn',
    '<%= config.bin %> check pads -o review.sarif.json -o review.junit.xml --quiet',
    '<%= config.bin %> check pad.yaml --json',
  ];
  static override args = {
    file: stringArg({ description: 'project file (YAML), folder or pattern, one or more', required: true, multiple: true }),
  };
  static override flags = {
    only: string({ description: 'Ids of the checks to make, separated by commas; the others say nothing.' }),
    limits: string({ description: 'File of limits in place of those of the default policy, and of waivers.' }),
    'closed-form': boolean({ description: 'Leave out the time domain: faster, and no start passes.' }),
    'fail-on': string({
      options: ['warn', 'not-assessed'],
      multiple: true,
      multipleNonGreedy: true,
      description: 'Exit with 1 on this verdict too (repeatable).',
      helpGroup: 'EXIT STATUS',
    }),
    ...reportOnly,
    all: boolean({ description: 'Show the basis of every result, of passes too.', helpGroup: 'OUTPUT' }),
    quiet: boolean({
      char: 'q',
      description: 'Show what does not pass, faults that were asked for, and the last line.',
      helpGroup: 'OUTPUT',
      exclusive: ['all'],
    }),
    faults: boolean({
      description: 'Also say what single faults do: a capacitor open, the load shorted, a pull-up open …',
      helpGroup: 'OUTPUT',
    }),
    output: string({
      char: 'o',
      multiple: true,
      multipleNonGreedy: true,
      description: `Write the review to a file too; the ending says which format: ${Object.keys(reviewFormats).join(', ')} (repeatable).`,
      helpGroup: 'OUTPUT',
    }),
    force: boolean({ description: 'Write over files that exist.', helpGroup: 'OUTPUT' }),
  };

  async run(): Promise<object> {
    const { argv, flags } = await this.parse(Check);
    const { root, version } = this.config;
    const now = new Date();
    const failing: readonly Verdict[] = ['fail', ...(flags['fail-on'] ?? []).map((word) => (word === 'warn' ? 'warn' : 'not assessed'))];
    const outputs = namedOutputs({ paths: flags.output ?? [], formats: reviewFormats, force: flags.force });
    const only = wantedChecks(flags.only);
    const limitsPath = flags.limits;
    const { policies, waivers } = limitsFor({ root, limitsPath });
    const paths = argv.map(String);
    const { files, skipped } = namedFiles(paths);
    // a folder or a pattern is a set of files, though it may hold one
    const several = files.length > 1 || (typeof files[0] === 'string' && files[0] !== paths[0]);
    const show = this.shower({ several, colour: flags.color, all: flags.all, quiet: flags.quiet, count: files.length });
    const reviewed: Reviewed[] = [];
    await reviewAll({
      files,
      settings: {
        root,
        policies,
        closedForm: flags['closed-form'],
        faults: flags.faults,
        only,
        waivers,
        limitsPath,
        today: dayOf(now),
        // what a page draws takes as long as a few reviews
        sheets: outputs.some(({ format }) => format === reviewFormats['.html']),
      },
      take: (one) => {
        reviewed.push(one);
        show(one, reviewed.length);
      },
    });
    const wanted = waivers.filter(({ id }) => only === undefined || only.includes(id));
    const notes = [...onlyNotes(only), ...skippedNotes(skipped), ...waiverNotes({ waivers: wanted, limitsPath, reviewed })];
    this.conclude({ reviewed, notes, several, colour: flags.color, quiet: flags.quiet });
    const options = { version, all: flags.all, failing, notes, several, sha256, time: now.toISOString().slice(0, 19) };
    writeAll({ outputs: outputs.map(({ path, format }) => ({ path, text: format(reviewed, options) })), force: flags.force });
    for (const { path } of outputs) this.logToStderr(`wrote ${path}`);
    process.exitCode = Math.max(...reviewed.map((one) => statusOf({ one, failing, reportOnly: flags['report-only'] })));
    // what is returned is printed under --json alone
    return this.jsonEnabled() ? reviewJson(reviewed, options) : {};
  }

  /** Prints each file as soon as it is its turn, and in between how many are done. */
  private shower({
    several,
    colour,
    all,
    quiet,
    count,
  }: {
    several: boolean;
    colour: string;
    all: boolean;
    quiet: boolean;
    count: number;
  }): (one: Reviewed, done: number) => void {
    if (this.jsonEnabled()) return () => undefined;
    const look = streamLook({ stream: process.stdout, colour });
    const progress = this.progress((share) => `${Math.round(share * count)} of ${count} files`);
    let isFirst = true;
    progress(0);
    return (one, done) => {
      const isTold = !isReviewed(one) || !several || all || one.report.faults !== undefined || hasOpen(one.report.results);
      if (isTold) {
        progress(1);
        if (isReviewed(one)) {
          if (!isFirst) this.log();
          this.log(terminalReport({ report: one.report, style: { ...look, all, folded: several, quiet } }));
          isFirst = false;
        } else this.printProblems(one.problems);
      }
      progress(done / count);
    };
  }

  /** What all files together came to, and what else is to be said. */
  private conclude({
    reviewed,
    notes,
    several,
    colour,
    quiet,
  }: {
    reviewed: readonly Reviewed[];
    notes: readonly string[];
    several: boolean;
    colour: string;
    quiet: boolean;
  }): void {
    if (this.jsonEnabled()) return;
    const style = { ...streamLook({ stream: process.stdout, colour }), quiet };
    if (several) this.log(`\n${reviewSummary({ reviewed, notes, style })}`);
    else for (const note of notes) this.log(hanging({ text: note, first: 'note: ', width: style.width }).join('\n'));
  }
}

function hasOpen(results: readonly Result[]): boolean {
  return results.some(({ verdict }) => verdict !== 'pass');
}

function statusOf({ one, failing, reportOnly }: { one: Reviewed; failing: readonly Verdict[]; reportOnly: boolean }): ExitStatus {
  if (!isReviewed(one)) return one.problems.some(({ id }) => id === 'internal') ? exitStatus.internal : exitStatus.refused;
  const { results } = one.report;
  const failed = results.some((result) => isFailing({ result, failing })) || (results.length === 0 && failing.includes('not assessed'));
  return failed && !reportOnly ? exitStatus.failed : exitStatus.passed;
}
