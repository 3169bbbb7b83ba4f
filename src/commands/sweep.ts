import { string as stringArg } from '@oclif/core/args';
import { boolean, string } from '@oclif/core/flags';
import { BaseCommand } from '../cli/base-command.ts';
import { defaultPolicies, InputError, mayPlot, mayWrite, sweepCsv, sweepJson, sweepSvg, sweepText, sweptFile } from '../cli/engine.ts';
import { streamLook } from '../cli/terminal.ts';

export default class Sweep extends BaseCommand {
  static override summary = 'One or two keys of a project against quantities and checks: table, chart, CSV, drawing.';
  static override description = `Sets each key to every value of its range, one after the other, and reviews the project so changed as \`check\` does. A point at which the
project is refused is shown with the reason; the others stay. At most 10,000 points.

Exit status: 0 ran, whatever the checks say; 2 could not run.`;
  static override examples = [
    '<%= config.bin %> sweep pad.yaml --vary "supply.voltage=12 V..36 V:1 V" --show drain.peak,switch-surge-voltage',
    '<%= config.bin %> sweep pad.yaml --vary "tank.bank.parallel=4..12" --vary "loads[1].power=10 W..50 W:10 W" --show capacitor-current',
  ];
  static override args = { file: stringArg({ description: 'project file (YAML)', required: true }) };
  static override flags = {
    vary: string({
      description:
        'Key of the project file and its range, "KEY=FROM..TO:STEP"; once or twice. Loads count from 0 (loads[1].power) or go by name.',
      required: true,
      multiple: true,
      multipleNonGreedy: true,
    }),
    show: string({
      description: 'Quantities and checks, separated by commas; a quantity is shown with every load, a check at its worst.',
      required: true,
    }),
    'closed-form': boolean({
      description: 'Leave out the time domain, which runs where something shown looks at the start or at a change of the load.',
    }),
    plot: string({ description: 'Write a drawing (SVG): lines for one key, maps for two.', helpGroup: 'OUTPUT' }),
    csv: string({ description: 'Write comma-separated values.', helpGroup: 'OUTPUT' }),
    force: boolean({ description: 'Write over files that exist.', helpGroup: 'OUTPUT' }),
  };

  async run(): Promise<object> {
    const { args, flags } = await this.parse(Sweep);
    const show = [...new Set(flags.show.split(',').map((id) => id.trim()))].filter((id) => id !== '');
    if (show.length === 0)
      throw new InputError([{ id: 'usage', message: '--show names nothing', help: 'name quantities and checks, such as drain.peak' }]);
    mayPlot({ path: flags.plot, force: flags.force });
    mayWrite({ option: '--csv', path: flags.csv, force: flags.force });
    const { root, version } = this.config;
    const { title, sweep } = sweptFile({
      path: args.file,
      root,
      policies: defaultPolicies(root),
      vary: flags.vary,
      show,
      closedForm: flags['closed-form'],
      progress: this.progress(),
    });
    this.log(sweepText({ file: args.file, title, sweep, style: streamLook({ stream: process.stdout, colour: flags.color }) }));
    if (flags.plot !== undefined) this.written({ path: flags.plot, text: sweepSvg({ sweep, title }), force: flags.force });
    if (flags.csv !== undefined) this.written({ path: flags.csv, text: sweepCsv(sweep), force: flags.force });
    return sweepJson({ file: args.file, title, sweep, version });
  }
}
