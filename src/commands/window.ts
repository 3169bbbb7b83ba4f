import { string as stringArg } from '@oclif/core/args';
import { boolean, string } from '@oclif/core/flags';
import { BaseCommand } from '../cli/base-command.ts';
import {
  InputError,
  mayPlot,
  policiesOf,
  projectInFile,
  quantityEnds,
  studied,
  windowJson,
  windowStudy,
  windowSvg,
  windowText,
} from '../cli/engine.ts';
import { exitStatus } from '../cli/exit-status.ts';
import { reportOnly } from '../cli/report-only.ts';
import { streamLook } from '../cli/terminal.ts';

/** Span of the present voltage that is looked at. */
const usualSpan = [0.05, 2.5] as const;
/** Volts beyond which no driver of this kind is fed. */
const mostVolts = 1000;

export default class WindowCommand extends BaseCommand {
  static override summary =
    'From which supply voltage to which no check fails, how heavy a load may be, what sets each end, and what comes next.';
  static override description = `Varies the supply voltage, then the power of the heaviest load at the present voltage, with every load at every corner of the tolerances, and
names the check that sets each end, then the next one with that left out, up to the fifth. In the time domain it takes a minute or so;
--closed-form takes seconds.

Exit status: 0 there is a voltage at which it starts and no check fails, 1 there is none, 2 could not run.`;
  static override examples = [
    '<%= config.bin %> window pad.yaml',
    '<%= config.bin %> window pad.yaml --closed-form',
    '<%= config.bin %> window pad.yaml --voltage "12 V..48 V" --plot window.svg',
  ];
  static override args = { file: stringArg({ description: 'project file (YAML)', required: true }) };
  static override flags = {
    voltage: string({
      description: 'Supply voltages to look at, such as "12 V..48 V"; a twentieth to two and a half times its own if left out.',
    }),
    'closed-form': boolean({ description: 'Leave out the time domain: quicker, and a start that latches is not seen.' }),
    plot: string({ description: 'Write a drawing (SVG) of both windows.', helpGroup: 'OUTPUT' }),
    force: boolean({ description: 'Write over a file that exists.', helpGroup: 'OUTPUT' }),
    ...reportOnly,
  };

  async run(): Promise<object> {
    const { args, flags } = await this.parse(WindowCommand);
    const style = streamLook({ stream: process.stdout, colour: flags.color });
    mayPlot({ path: flags.plot, force: flags.force });
    const ends = flags.voltage === undefined ? undefined : quantityEnds({ option: '--voltage', text: flags.voltage, dimension: 'voltage' });
    if (ends !== undefined && !(ends.from >= 0.1 && ends.to <= mostVolts && ends.to - ends.from >= 1))
      throw new InputError([
        {
          id: 'out-of-range',
          message: `--voltage must lie between 0.1 V and ${mostVolts} V and span 1 V or more`,
          help: 'write a range such as "12 V..48 V"',
        },
      ]);
    const { design } = projectInFile({ path: args.file, root: this.config.root });
    const policies = policiesOf({ design, root: this.config.root });
    const { voltage } = design.supply;
    const [low, high] = usualSpan;
    const { from, to } = ends ?? { from: Math.max(0.1, low * voltage), to: Math.max(high * voltage, low * voltage + 1) };
    const depth = flags['closed-form'] ? 'closed form' : 'time domain';
    const study = studied({ design, study: () => windowStudy({ design, policies, depth, from, to, progress: this.progress() }) });
    const title = design.title ?? 'untitled';
    this.log(windowText({ file: args.file, title, study, style }));
    if (flags.plot !== undefined) this.written({ path: flags.plot, text: windowSvg({ study, title }), force: flags.force });
    const found = flags['closed-form'] ? study.supply.chosen : study.supply.surest;
    if (found === undefined && !flags['report-only']) process.exitCode = exitStatus.failed;
    return windowJson({ file: args.file, title, study, version: this.config.version });
  }
}
