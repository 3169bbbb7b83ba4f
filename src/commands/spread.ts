import { string as stringArg } from '@oclif/core/args';
import { boolean, string } from '@oclif/core/flags';
import { BaseCommand } from '../cli/base-command.ts';
import { defaultPolicies, mayPlot, mayWrite, spreadCsv, spreadJson, spreadOfFile, spreadSvg, spreadText } from '../cli/engine.ts';
import { streamLook } from '../cli/terminal.ts';

export default class Spread extends BaseCommand {
  static override summary = 'Worst corner and random builds: the share that fails each check, and what drives it.';
  static override description = `Draws builds from the tolerances that the project and its parts state (supply, coil, bank, choke, threshold, clamp) and judges each as \`check\`
judges a corner, in closed form. Beside each check stand its worst corner, the share of builds that fail with a 95 % interval (Wilson), and how
strongly each tolerance moves the room that is left (Spearman's rank correlation). The same seed gives the same builds.

Exit status: 0 ran, whatever the checks say; 2 could not run.`;
  static override examples = [
    '<%= config.bin %> spread pad.yaml',
    '<%= config.bin %> spread pad.yaml --as normal --as supply=limit --builds 50000',
    '<%= config.bin %> spread pad.yaml --plot spread.svg --csv builds.csv',
  ];
  static override args = { file: stringArg({ description: 'project file (YAML)', required: true }) };
  static override flags = {
    builds: string({ description: 'How many builds, up to 100,000.', default: '10000' }),
    seed: string({ description: 'Where the random numbers begin.', default: '1' }),
    as: string({
      description:
        'How values lie between their limits: uniform (the default), normal (limits at 3 standard deviations) or limit (at one end or the other); of one tolerance as NAME=WORD. Repeatable.',
      multiple: true,
      multipleNonGreedy: true,
    }),
    'closed-form': boolean({ description: 'Leave out the time domain at the worst corners; builds never have it.' }),
    all: boolean({ description: 'Show what drives every check.', helpGroup: 'OUTPUT' }),
    plot: string({ description: 'Write a drawing (SVG).', helpGroup: 'OUTPUT' }),
    csv: string({ description: 'Write every build as comma-separated values.', helpGroup: 'OUTPUT' }),
    force: boolean({ description: 'Write over files that exist.', helpGroup: 'OUTPUT' }),
  };

  async run(): Promise<object> {
    const { args, flags } = await this.parse(Spread);
    mayPlot({ path: flags.plot, force: flags.force });
    mayWrite({ option: '--csv', path: flags.csv, force: flags.force });
    const { root, version } = this.config;
    const { title, spread } = spreadOfFile({
      path: args.file,
      root,
      policies: defaultPolicies(root),
      builds: flags.builds,
      seed: flags.seed,
      as: flags.as ?? [],
      closedForm: flags['closed-form'],
      progress: this.progress(),
    });
    const look = streamLook({ stream: process.stdout, colour: flags.color });
    this.log(spreadText({ file: args.file, title, spread, style: { ...look, all: flags.all } }));
    if (flags.plot !== undefined) this.written({ path: flags.plot, text: spreadSvg({ spread, title }), force: flags.force });
    if (flags.csv !== undefined) this.written({ path: flags.csv, text: spreadCsv(spread), force: flags.force });
    // it has what drives every check, which takes a while
    return this.jsonEnabled() ? spreadJson({ file: args.file, title, spread, version }) : {};
  }
}
