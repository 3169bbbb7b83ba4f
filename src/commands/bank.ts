import { string as stringArg } from '@oclif/core/args';
import { boolean, string } from '@oclif/core/flags';
import { BaseCommand } from '../cli/base-command.ts';
import {
  bankCapacitance,
  bankCurve,
  bankCurveJson,
  bankCurveSvg,
  bankCurveText,
  bankJson,
  bankStudy,
  bankText,
  capacitorsFor,
  countRange,
  drawerJson,
  drawerStudy,
  drawerText,
  InputError,
  mayPlot,
  parsedOption,
  parsedShare,
  policiesOf,
  projectInFile,
  stockIn,
  studied,
  usualMostCount,
  usualTolerance,
  wholeOption,
} from '../cli/engine.ts';
import { exitStatus } from '../cli/exit-status.ts';
import { reportOnly } from '../cli/report-only.ts';
import { streamLook } from '../cli/terminal.ts';

/** Most capacitors that --most may ask for. */
const mostOfAll = 5000;

export default class BankCommand extends BaseCommand {
  static override summary =
    'Which capacitor, how many in series and parallel: the smallest bank of each part that passes every check of the bank.';
  static override description = `Looks at every bank of every capacitor that keeps the capacitance, at the worst load and corner of the tolerances, running, at switch-on and
at load removal (in the time domain; --closed-form is quicker), and names what to write into the file.

Exit status: 0 a bank passes, 1 none does, 2 could not run.`;
  static override examples = [
    '<%= config.bin %> bank heater.yaml',
    '<%= config.bin %> bank heater.yaml --kind polypropylene --sort volume',
    '<%= config.bin %> bank heater.yaml --part pp-box-330n-630v --parallel 6..24:3',
    '<%= config.bin %> bank heater.yaml --have pp-box-330n-630v=40,pp-box-100n-630v=32',
  ];
  static override args = { file: stringArg({ description: 'project file (YAML)', required: true }) };
  static override flags = {
    part: string({
      multiple: true,
      multipleNonGreedy: true,
      description: 'A capacitor to look at (repeatable); all of parts-db if left out.',
    }),
    kind: string({ description: 'Capacitors of one dielectric or class, such as polypropylene or pp-foil.' }),
    keep: string({
      options: ['capacitance', 'frequency'],
      default: 'capacitance',
      description: 'What the new bank keeps, with the coil as it is.',
    }),
    within: string({ default: `${usualTolerance * 100} %`, description: 'How far that may be off, both ways.' }),
    capacitance: string({ description: 'Capacitance that is wanted, in place of that of the project, such as "2 uF".' }),
    series: string({ description: 'So many in series and no other number.' }),
    most: string({ default: String(usualMostCount), description: 'Most capacitors that a bank may have.' }),
    have: string({
      description: 'What is in the drawer, such as pp-box-100n-630v=32,pp-box-330n-630v=10: banks of that alone, mixed ones too.',
    }),
    parallel: string({ description: 'Range such as 8..40 or 8..40:4: current, rise and verdict of one part with so many in parallel.' }),
    sort: string({ options: ['count', 'volume'], default: 'count', description: 'Order of the parts that pass.', helpGroup: 'OUTPUT' }),
    'closed-form': boolean({ description: 'Switch-on and load removal in closed form: quicker, and where it cannot tell, not assessed.' }),
    plot: string({ description: 'Write a drawing (SVG) of --parallel.', helpGroup: 'OUTPUT' }),
    force: boolean({ description: 'Write over a file that exists.', helpGroup: 'OUTPUT' }),
    ...reportOnly,
  };

  async run(): Promise<object> {
    const { args, flags } = await this.parse(BankCommand);
    const style = streamLook({ stream: process.stdout, colour: flags.color });
    for (const [first, second] of [
      ['have', 'parallel'],
      ['have', 'part'],
      ['have', 'kind'],
    ] as const)
      if (flags[first] !== undefined && flags[second] !== undefined)
        throw usage(`--${first} goes without --${second}`, 'leave one of them out');
    if (flags.plot !== undefined && flags.parallel === undefined)
      throw usage('--plot draws the list of --parallel', 'add a range, such as --parallel 8..40');
    if (flags.capacitance !== undefined && flags.keep === 'frequency')
      throw usage('--capacitance goes without --keep frequency', 'leave one of them out');
    mayPlot({ path: flags.plot, force: flags.force });
    const request = requestOf(flags);
    const project = projectInFile({ path: args.file, root: this.config.root });
    const { design } = project;
    const policies = policiesOf({ design, root: this.config.root });
    const shelf = { ...project, path: args.file, root: this.config.root };
    const document = {
      file: args.file,
      title: design.title ?? 'untitled',
      request,
      wanted: request.capacitance ?? bankCapacitance(design.tank.bank),
      version: this.config.version,
    };
    const { depth } = request;
    const progress = this.progress();
    if (flags.parallel !== undefined) {
      const counts = countRange({ option: '--parallel', text: flags.parallel, most: mostOfAll });
      const own = design.tank.bank;
      const parts =
        flags.part === undefined && flags.kind === undefined
          ? [own.capacitor]
          : capacitorsFor({ ...shelf, names: flags.part ?? [], kind: flags.kind });
      const [capacitor, ...others] = parts;
      if (capacitor === undefined || others.length > 0) throw usage('--parallel is the list of one part', 'name one with --part');
      const series = request.series ?? own.series;
      const curve = studied({ design, study: () => bankCurve({ design, policies, capacitor, series, counts, depth, progress }) });
      this.log(bankCurveText({ ...document, curve, depth, style }));
      if (flags.plot !== undefined) {
        const text = bankCurveSvg({ curve, title: `${document.title}: ${capacitor.name}, ${series} in series` });
        this.written({ path: flags.plot, text, force: flags.force });
      }
      if (!curve.some(({ state }) => state.verdict === 'pass') && !flags['report-only']) process.exitCode = exitStatus.failed;
      return bankCurveJson({ ...document, curve });
    }
    if (flags.have !== undefined) {
      const stock = stockIn({ ...shelf, text: flags.have });
      const answers = studied({ design, study: () => drawerStudy({ design, policies, stock, request, progress }) });
      this.log(drawerText({ ...document, answers, style }));
      if (!answers.some(({ kind }) => kind === 'passes') && !flags['report-only']) process.exitCode = exitStatus.failed;
      return drawerJson({ ...document, answers });
    }
    const parts = capacitorsFor({ ...shelf, names: flags.part ?? [], kind: flags.kind });
    const study = studied({ design, study: () => bankStudy({ design, policies, parts, request, progress }) });
    const sort = flags.sort === 'volume' ? 'volume' : 'count';
    this.log(bankText({ ...document, study, sort, style }));
    if (!study.answers.some(({ kind }) => kind === 'passes') && !flags['report-only']) process.exitCode = exitStatus.failed;
    return bankJson({ ...document, study, sort });
  }
}

function usage(message: string, help: string): InputError {
  return new InputError([{ id: 'usage', message, help }]);
}

function requestOf(flags: {
  readonly keep: string;
  readonly within: string;
  readonly capacitance?: string | undefined;
  readonly series?: string | undefined;
  readonly most: string;
  readonly 'closed-form': boolean;
}): Parameters<typeof bankStudy>[0]['request'] {
  const within = parsedShare({ option: '--within', text: flags.within, most: 1, example: '10 %' });
  const capacitance =
    flags.capacitance === undefined
      ? undefined
      : parsedOption({ option: '--capacitance', text: flags.capacitance, dimension: 'capacitance' });
  if (capacitance !== undefined && !(capacitance > 0 && capacitance <= 1))
    throw new InputError([
      { id: 'out-of-range', message: '--capacitance must be above zero, up to 1 F', help: 'write one such as "2 uF"' },
    ]);
  return {
    keep: flags.keep === 'frequency' ? 'frequency' : 'capacitance',
    within,
    mostCount: wholeOption({ option: '--most', text: flags.most, least: 1, most: mostOfAll }),
    depth: flags['closed-form'] ? 'closed form' : 'time domain',
    ...(capacitance === undefined ? {} : { capacitance }),
    ...(flags.series === undefined ? {} : { series: wholeOption({ option: '--series', text: flags.series, least: 1, most: mostOfAll }) }),
  };
}
