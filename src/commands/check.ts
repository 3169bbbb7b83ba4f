import { string as stringArg } from '@oclif/core/args';
import { boolean, string } from '@oclif/core/flags';
import type { Verdict } from '../checks/judge.ts';
import { BaseCommand } from '../cli/base-command.ts';
import { exitStatus, type ExitStatus } from '../cli/exit-status.ts';
import {
  defaultPolicies,
  gravestVerdict,
  InputError,
  isReviewed,
  namedOutputs,
  outcomeWords,
  reviewedFile,
  reviewFormats,
  reviewJson,
  terminalReport,
  writeAll,
} from '../cli/engine.ts';
import { streamLook } from '../cli/terminal.ts';
import type { Reviewed } from '../report/reviewed.ts';

export default class Check extends BaseCommand {
  static override summary = 'Will each part survive, will it start? Checks project files against the ratings of their parts.';
  static override description = `Computes every part's stress while running, at switch-on and at load removal, for every load and every corner of the tolerances, and says
pass, warn, fail or not assessed with the reason and the remedy. The figures do not replace measurement, local codes or a licensed practitioner.

Exit status: 0 nothing failed, 1 a check failed, 2 could not run, 70 a bug of tankproof. Several files: the highest.`;
  static override examples = [
    '<%= config.bin %> check pad.yaml',
    '<%= config.bin %> check pad.yaml heater.yaml --fail-on warn',
    '<%= config.bin %> check pad.yaml --json',
  ];
  static override args = { file: stringArg({ description: 'project file (YAML), one or more', required: true, multiple: true }) };
  static override flags = {
    all: boolean({ description: 'Show the basis of every result, of passes too.', helpGroup: 'OUTPUT' }),
    'fail-on': string({
      options: ['warn', 'not-assessed'],
      multiple: true,
      multipleNonGreedy: true,
      description: 'Exit with 1 on this verdict too (repeatable).',
      helpGroup: 'EXIT STATUS',
    }),
    'closed-form': boolean({ description: 'Leave out the time domain: faster, and no start passes.' }),
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
    'report-only': boolean({ description: 'Exit with 0 where it would be 1.', helpGroup: 'EXIT STATUS' }),
  };

  async run(): Promise<object> {
    const { argv, flags } = await this.parse(Check);
    const outputs = namedOutputs({ paths: flags.output ?? [], formats: reviewFormats, force: flags.force });
    const policies = defaultPolicies(this.config.root);
    const failing: readonly Verdict[] = ['fail', ...(flags['fail-on'] ?? []).map((word) => (word === 'warn' ? 'warn' : 'not assessed'))];
    const reviewed = argv.map((path): Reviewed =>
      this.reviewed({ path: String(path), policies, closedForm: flags['closed-form'], faults: flags.faults }),
    );
    const statuses = reviewed.map((one): ExitStatus => {
      if (!isReviewed(one)) return exitStatus.refused;
      const failed = one.report.results.some(({ verdict }) => failing.includes(verdict)) && !flags['report-only'];
      return failed ? exitStatus.failed : exitStatus.passed;
    });
    this.print({ reviewed, all: flags.all, colour: flags.color });
    process.exitCode = Math.max(...statuses);
    const { version } = this.config;
    const options = { version, all: flags.all, failing, notes: [], time: new Date().toISOString().slice(0, 19) };
    writeAll({ outputs: outputs.map(({ path, format }) => ({ path, text: format(reviewed, options) })), force: flags.force });
    for (const { path } of outputs) this.logToStderr(`wrote ${path}`);
    // what is returned is printed under --json alone
    return this.jsonEnabled() ? reviewJson(reviewed, { version }) : {};
  }

  private reviewed({
    path,
    policies,
    closedForm,
    faults,
  }: {
    path: string;
    policies: ReturnType<typeof defaultPolicies>;
    closedForm: boolean;
    faults: boolean;
  }): Reviewed {
    try {
      return { file: path, report: reviewedFile({ path, root: this.config.root, policies, closedForm, faults }) };
    } catch (error) {
      if (error instanceof InputError) return { file: path, problems: error.problems };
      throw error;
    }
  }

  private print({ reviewed, all, colour }: { reviewed: readonly Reviewed[]; all: boolean; colour: string }): void {
    if (this.jsonEnabled()) return;
    const look = streamLook({ stream: process.stdout, colour });
    reviewed.forEach((one, i) => {
      if (i > 0) this.log();
      if (isReviewed(one)) this.log(terminalReport({ report: one.report, style: { ...look, all } }));
      else this.printProblems(one.problems);
    });
    if (reviewed.length > 1) this.log(`\n${overview(reviewed)}`);
  }
}

/** A line a file: what it came to. */
function overview(reviewed: readonly Reviewed[]): string {
  return reviewed
    .map((one) => `${one.file}: ${isReviewed(one) ? gravestVerdict(one.report.results) : 'could not run'}`)
    .concat(`${reviewed.length} files: ${outcomeWords(reviewed)}`)
    .join('\n');
}
