import { string as stringArg } from '@oclif/core/args';
import { string } from '@oclif/core/flags';
import { BaseCommand } from '../cli/base-command.ts';
import { didYouMeanHelp, InputError, partJson, partKinds, partsListText, partsOnShelf, partText } from '../cli/engine.ts';
import { streamLook } from '../cli/terminal.ts';

export default class Parts extends BaseCommand {
  static override summary = 'The parts that a project file can name, and every rating of one with its source.';
  static override description = 'list prints names and titles, of those that contain a text if one is given. show prints one part.';
  static override examples = [
    '<%= config.bin %> parts list',
    '<%= config.bin %> parts list 200',
    '<%= config.bin %> parts list --kind capacitors',
    '<%= config.bin %> parts show IRFP250N',
  ];
  static override args = {
    action: stringArg({ description: 'list or show', options: ['list', 'show'], default: 'list' }),
    text: stringArg({ description: 'list: text to look for; show: name of the part' }),
  };
  static override flags = {
    kind: string({ options: [...partKinds], description: 'Parts of one kind only.' }),
    folder: string({ multiple: true, multipleNonGreedy: true, description: 'A folder of parts of your own (repeatable).' }),
  };

  async run(): Promise<object> {
    const { args, flags } = await this.parse(Parts);
    const { width } = streamLook({ stream: process.stdout, colour: flags.color });
    const kind = partKinds.find((one) => one === flags.kind);
    const shelf = partsOnShelf({ root: this.config.root, folders: flags.folder ?? [], kind });
    if (args.action === 'show') {
      if (args.text === undefined) throw new InputError([{ id: 'usage', message: 'no part is named', help: 'tankproof parts show NAME' }]);
      const found = shelf.find(({ part }) => part.name === args.text);
      if (found === undefined) {
        const help =
          didYouMeanHelp({ word: args.text, names: shelf.map(({ part }) => part.name) }) ?? 'tankproof parts list shows the names';
        throw new InputError([{ id: 'unknown-part', message: `there is no part "${args.text}"`, help }]);
      }
      this.log(partText({ ...found, width }));
      return partJson(found);
    }
    const wanted = (args.text ?? '').toLowerCase();
    const parts = shelf.filter(({ part }) => `${part.name} ${part.title ?? ''} ${part.note ?? ''}`.toLowerCase().includes(wanted));
    if (parts.length === 0)
      throw new InputError([
        { id: 'unknown-part', message: `no part has "${args.text}" in its name or title`, help: 'tankproof parts list' },
      ]);
    this.log(partsListText({ parts: parts.map(({ part }) => part), width }));
    return { parts: parts.map(({ part, path }) => ({ name: part.name, kind: part.kind, title: part.title ?? null, file: path })) };
  }
}
