import { string as stringArg } from '@oclif/core/args';
import { boolean, string } from '@oclif/core/flags';
import { BaseCommand } from '../cli/base-command.ts';
import {
  comparedFiles,
  compareFailures,
  compareFormats,
  compareJson,
  compareText,
  dayOf,
  failOnOf,
  limitsFor,
  namedOutputs,
  writeAll,
} from '../cli/engine.ts';
import { exitStatus } from '../cli/exit-status.ts';
import { reportOnly } from '../cli/report-only.ts';
import { streamLook } from '../cli/terminal.ts';

export default class Compare extends BaseCommand {
  static override summary = 'What a change did to every margin: two versions of a project file or of a folder of them.';
  static override description = `Reviews both versions as \`check\` does and names each input that changed with its line, then what that did: verdicts and margins, greatest loss
first, and the nominal quantities. OLD and NEW are files, folders, or git:REV:PATH, which is read through git: PATH counts from the top of the
repository, with ./ in front from the working folder. Part files that a project names are read from the same revision; parts-db and the
limits are those of today on both sides.

A check is worse by the room that it lost between value and limit, in % of the limit; of a minimum, in % of the larger of value and limit; of a
temperature, each kelvin counts as 1 %. --fail-on worse:5% ends with 1 where a check lost more than 5 %, has a graver verdict (pass, warn, not
assessed, fail), is not assessed any more, or is new and does not pass; every check of a file that was added is new. --fail-on worse allows no
loss at all.

Exit status: 0 nothing failed in NEW, 1 a check fails in NEW or --fail-on is met, 2 could not run (any file of either side); then nothing is compared.`;
  static override examples = [
    '<%= config.bin %> compare old.yaml new.yaml',
    '<%= config.bin %> compare git:main:pads/lamp.yaml pads/lamp.yaml --fail-on worse:5%',
    '<%= config.bin %> compare git:origin/main:pads pads -o comment.md',
  ];
  static override args = {
    old: stringArg({ description: 'project file, folder, or git:REV:PATH, as it was', required: true }),
    new: stringArg({ description: 'project file, folder, or git:REV:PATH, as it is', required: true }),
  };
  static override flags = {
    all: boolean({ description: 'Show what stands as it did, too.', helpGroup: 'OUTPUT' }),
    'fail-on': string({
      multiple: true,
      multipleNonGreedy: true,
      description: 'Exit with 1 on this too: warn, not-assessed, worse, worse:5% (repeatable).',
      helpGroup: 'EXIT STATUS',
    }),
    limits: string({ description: 'File of limits for both sides in place of those of the default policy, and of waivers.' }),
    'closed-form': boolean({ description: 'Leave out the time domain: faster, and no start passes.' }),
    output: string({
      char: 'o',
      multiple: true,
      multipleNonGreedy: true,
      description: `Write the comparison to a file too; the ending says which format: ${Object.keys(compareFormats).join(', ')} (repeatable).`,
      helpGroup: 'OUTPUT',
    }),
    force: boolean({ description: 'Write over files that exist.', helpGroup: 'OUTPUT' }),
    ...reportOnly,
  };

  async run(): Promise<object> {
    const { args, flags } = await this.parse(Compare);
    const failOn = failOnOf(flags['fail-on'] ?? []);
    const outputs = namedOutputs({ paths: flags.output ?? [], formats: compareFormats, force: flags.force });
    const { root, version } = this.config;
    const limitsPath = flags.limits;
    const files = comparedFiles({
      before: args.old,
      after: args.new,
      root,
      settings: { ...limitsFor({ root, limitsPath }), limitsPath, closedForm: flags['closed-form'], today: dayOf(new Date()) },
      progress: this.progress(),
    });
    const failed = compareFailures({ files, failOn });
    const compared = { files, failed, version };
    const look = streamLook({ stream: process.stdout, colour: flags.color });
    this.log(compareText({ files, failed, style: { ...look, all: flags.all } }));
    writeAll({ outputs: outputs.map(({ path, format }) => ({ path, text: format(compared) })), force: flags.force });
    for (const { path } of outputs) this.logToStderr(`wrote ${path}`);
    process.exitCode = failed.length > 0 && !flags['report-only'] ? exitStatus.failed : exitStatus.passed;
    return compareJson(compared);
  }
}
