import { string as stringArg } from '@oclif/core/args';
import { boolean, string } from '@oclif/core/flags';
import type { Verdict } from '../checks/judge.ts';
import { BaseCommand, refusalJson } from '../cli/base-command.ts';
import { exitStatus, type ExitStatus } from '../cli/exit-status.ts';
import { defaultPolicies, gravestVerdict, InputError, jsonReport, reviewedFile, terminalReport } from '../cli/engine.ts';
import { streamLook } from '../cli/terminal.ts';
import type { ReviewReport } from '../report/review-report.ts';
import type { Diagnostic } from '../source/diagnostic.ts';

type Reviewed = { readonly report: ReviewReport } | { readonly file: string; readonly problems: readonly Diagnostic[] };

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
    'report-only': boolean({ description: 'Exit with 0 where it would be 1.', helpGroup: 'EXIT STATUS' }),
  };

  async run(): Promise<object> {
    const { argv, flags } = await this.parse(Check);
    const policies = defaultPolicies(this.config.root);
    const failing: readonly Verdict[] = ['fail', ...(flags['fail-on'] ?? []).map((word) => (word === 'warn' ? 'warn' : 'not assessed'))];
    const reviewed = argv.map((path): Reviewed =>
      this.reviewed({ path: String(path), policies, closedForm: flags['closed-form'], faults: flags.faults }),
    );
    const statuses = reviewed.map((one): ExitStatus => {
      if (!('report' in one)) return exitStatus.refused;
      const failed = one.report.results.some(({ verdict }) => failing.includes(verdict)) && !flags['report-only'];
      return failed ? exitStatus.failed : exitStatus.passed;
    });
    this.print({ reviewed, all: flags.all, colour: flags.color });
    process.exitCode = Math.max(...statuses);
    // what is returned is printed under --json alone
    if (!this.jsonEnabled()) return {};
    const documents = reviewed.map((one) =>
      'report' in one ? jsonReport({ report: one.report, version: this.config.version }) : { file: one.file, ...refusalJson(one.problems) },
    );
    return documents.length === 1 ? withoutFileOnRefusal(documents[0]!) : { reports: documents };
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
      return { report: reviewedFile({ path, root: this.config.root, policies, closedForm, faults }) };
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
      if ('report' in one) this.log(terminalReport({ report: one.report, style: { ...look, all } }));
      else this.printProblems(one.problems);
    });
    if (reviewed.length > 1) this.log(`\n${overview(reviewed)}`);
  }
}

/** A line a file: what it came to. */
function overview(reviewed: readonly Reviewed[]): string {
  return reviewed
    .map((one) => ('report' in one ? `${one.report.file}: ${gravestVerdict(one.report.results)}` : `${one.file}: could not run`))
    .concat(`${reviewed.length} files: ${gravest(reviewed)}`)
    .join('\n');
}

function gravest(reviewed: readonly Reviewed[]): string {
  const refused = reviewed.filter((one) => !('report' in one)).length;
  const verdict = gravestVerdict(reviewed.flatMap((one) => ('report' in one ? one.report.results : [])));
  return [...(refused === reviewed.length ? [] : [verdict]), ...(refused === 0 ? [] : [`${refused} could not run`])].join(', ');
}

function withoutFileOnRefusal(document: object): object {
  return 'error' in document && 'file' in document
    ? Object.fromEntries(Object.entries(document).filter(([key]) => key !== 'file'))
    : document;
}
