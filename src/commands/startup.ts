import { string as stringArg } from '@oclif/core/args';
import { boolean, string } from '@oclif/core/flags';
import { BaseCommand } from '../cli/base-command.ts';
import {
  designInFile,
  InputError,
  latchMap,
  latchMapSvg,
  latchMapText,
  mayPlot,
  mayWrite,
  parsedShare,
  quantityRange,
  recordingCsv,
  recordingSvg,
  startupEvents,
  startupJson,
  startupText,
  studied,
} from '../cli/engine.ts';
import { exitStatus } from '../cli/exit-status.ts';
import { reportOnly } from '../cli/report-only.ts';
import { streamLook } from '../cli/terminal.ts';

export default class Startup extends BaseCommand {
  static override summary = 'Switch-on, load changes and a supply drop in the time domain: runs or latches, peaks, waveforms.';
  static override description = `Follows the whole circuit through its events with every load, at nominal values.

Exit status: 0 every event of the project as written runs, 1 one latches, does not start or is undecided, 2 could not run.`;
  static override examples = [
    '<%= config.bin %> startup pad.yaml',
    '<%= config.bin %> startup pad.yaml --plot start.svg --csv start.csv',
    '<%= config.bin %> startup pad.yaml --rise "0 s..10 ms"',
  ];
  static override args = { file: stringArg({ description: 'project file (YAML)', required: true }) };
  static override flags = {
    mismatch: string({ description: 'Difference of the two thresholds; 2 % if left out.' }),
    cold: boolean({ description: 'Switches at ambient temperature, not at that of the running driver.' }),
    rise: string({ description: 'Range of rise times such as "0 s..10 ms": outcome against rise time and supply voltage.' }),
    voltage: string({
      description: 'Range of supply voltages for --rise, such as "12 V..36 V:3 V"; half to one and a half times its own if left out.',
    }),
    plot: string({ description: 'Write a drawing (SVG) of the first event, or of the map of --rise.' }),
    csv: string({ description: 'Write the waveform of the first event as comma-separated values.' }),
    force: boolean({ description: 'Write over files that exist.' }),
    ...reportOnly,
  };

  async run(): Promise<object> {
    const { args, flags } = await this.parse(Startup);
    const { width } = streamLook({ stream: process.stdout, colour: flags.color });
    if (flags.voltage !== undefined && flags.rise === undefined)
      throw new InputError([
        {
          id: 'usage',
          message: '--voltage is a range for the map of --rise',
          help: 'add a range of rise times, such as --rise "0 s..10 ms"',
        },
      ]);
    mayPlot({ path: flags.plot, force: flags.force });
    mayWrite({ option: '--csv', path: flags.csv, force: flags.force });
    const { root, version } = this.config;
    const design = designInFile({ path: args.file, root });
    const mismatch =
      flags.mismatch === undefined ? undefined : parsedShare({ option: '--mismatch', text: flags.mismatch, most: 0.5, example: '2 %' });
    const options = { cold: flags.cold, ...(mismatch === undefined ? {} : { mismatch }) };
    const title = design.title ?? 'untitled';
    if (flags.rise !== undefined) {
      const riseTimes = quantityRange({ option: '--rise', text: flags.rise, dimension: 'time', count: 9 });
      if (flags.csv !== undefined)
        throw new InputError([{ id: 'usage', message: '--csv goes without --rise', help: 'leave one of them out' }]);
      if (riseTimes.at(-1)! > 1)
        throw new InputError([{ id: 'out-of-range', message: '--rise goes up to 1 s', help: 'write a range such as "0 s..100 ms"' }]);
      const { voltage } = design.supply;
      const voltages =
        flags.voltage === undefined
          ? Array.from({ length: 9 }, (_, i) => voltage * (0.5 + i / 8))
          : quantityRange({ option: '--voltage', text: flags.voltage, dimension: 'voltage', count: 9 });
      if (!(voltages[0]! > 0))
        throw new InputError([
          { id: 'out-of-range', message: '--voltage must be above zero', help: 'write a range such as "6 V..24 V:3 V"' },
        ]);
      const map = studied({
        design,
        study: () => latchMap({ design, riseTimes, voltages, options, progress: this.progress() }),
      });
      this.log(`${args.file}  ${title}\n\n${latchMapText({ map, width })}`);
      if (flags.plot !== undefined)
        this.written({ path: flags.plot, text: latchMapSvg({ map, title: `${title}: start` }), force: flags.force });
      return startupJson({ file: args.file, title, events: [], map, version });
    }
    const events = studied({ design, study: () => startupEvents({ design, options }) });
    this.log(startupText({ file: args.file, title, events, width }));
    const [first] = events;
    if (first?.recording !== undefined) {
      const name = `${title}: ${first.event}, ${first.load}`;
      if (flags.plot !== undefined)
        this.written({ path: flags.plot, text: recordingSvg({ recording: first.recording, title: name }), force: flags.force });
      if (flags.csv !== undefined)
        this.written({ path: flags.csv, text: recordingCsv({ recording: first.recording }), force: flags.force });
    }
    const isWell = events.every(({ asWritten, result }) => !asWritten || (!('unknown' in result) && result.outcome === 'runs'));
    if (!isWell && !flags['report-only']) process.exitCode = exitStatus.failed;
    return startupJson({ file: args.file, title, events, version });
  }
}
