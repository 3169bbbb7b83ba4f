import { string as stringArg } from '@oclif/core/args';
import { string } from '@oclif/core/flags';
import { BaseCommand } from '../cli/base-command.ts';
import { startingText, writeNew } from '../cli/engine.ts';

export default class New extends BaseCommand {
  static override summary = 'A commented project file to start from.';
  static override description = 'Writes FILE, which must not exist; without FILE it prints the text.';
  static override examples = [
    '<%= config.bin %> new driver.yaml',
    '<%= config.bin %> new heater.yaml --from examples/bolt-heater',
    '<%= config.bin %> new > driver.yaml',
  ];
  static override args = { file: stringArg({ description: 'project file to write' }) };
  static override flags = { from: string({ description: 'An example to start from, such as examples/bolt-heater.' }) };

  async run(): Promise<object> {
    const { args, flags } = await this.parse(New);
    const text = startingText({ root: this.config.root, from: flags.from });
    if (args.file === undefined) {
      this.log(text.trimEnd());
      return { file: null, text };
    }
    writeNew({ path: args.file, text });
    this.log(`wrote ${args.file}\nnext: tankproof check ${args.file}`);
    return { file: args.file, text };
  }
}
