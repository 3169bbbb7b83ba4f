import { string as stringArg } from '@oclif/core/args';
import { BaseCommand } from '../cli/base-command.ts';
import { defaultPolicies, designInFile, pageText, ownPolicies, readingsJson, readingsPage, readingsStudy, studied } from '../cli/engine.ts';
import { exitStatus } from '../cli/exit-status.ts';
import { reportOnly } from '../cli/report-only.ts';
import { streamLook } from '../cli/terminal.ts';

export default class Readings extends BaseCommand {
  static override summary = 'Measured values against predicted: what L, C, R or part explains the difference, and the margins as built.';
  static override description = `Compares the project's \`readings:\` with what its own values predict, estimates the values as built with 95 % intervals, names likely causes
of what disagrees with the evidence for each, and reviews the driver as it was built.

Exit status: 0 every reading agrees and no margin as built fails, 1 a reading disagrees or a margin as built fails, 2 the readings cannot be
used.`;
  static override examples = ['<%= config.bin %> readings pad.yaml', '<%= config.bin %> readings pad.yaml --json'];
  static override args = { file: stringArg({ description: 'project file (YAML) with readings', required: true }) };
  static override flags = reportOnly;

  async run(): Promise<object> {
    const { args, flags } = await this.parse(Readings);
    const design = designInFile({ path: args.file, root: this.config.root });
    const policies = ownPolicies({ policies: defaultPolicies(this.config.root), design });
    const study = studied({ design, study: () => readingsStudy({ design, policies }) });
    const named = { file: args.file, title: design.title ?? 'untitled', study };
    const { width } = streamLook({ stream: process.stdout, colour: flags.color });
    this.log(pageText({ page: readingsPage(named), width }));
    const isWell =
      study.comparisons.every(({ verdict }) => verdict !== 'disagrees') && study.asBuilt.every(({ verdict }) => verdict !== 'fail');
    process.exitCode = isWell || flags['report-only'] ? exitStatus.passed : exitStatus.failed;
    return readingsJson({ ...named, version: this.config.version });
  }
}
