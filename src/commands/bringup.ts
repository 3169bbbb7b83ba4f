import { string as stringArg } from '@oclif/core/args';
import { boolean, string } from '@oclif/core/flags';
import { BaseCommand } from '../cli/base-command.ts';
import {
  bringupCard,
  bringupJson,
  bringupPage,
  defaultPolicies,
  designInFile,
  namedOutputs,
  pageHtml,
  pageMarkdown,
  pageText,
  reviewedDesign,
  studied,
  writeAll,
} from '../cli/engine.ts';
import { exitStatus } from '../cli/exit-status.ts';
import { reportOnly } from '../cli/report-only.ts';
import { streamLook } from '../cli/terminal.ts';

/** Columns of a card that is written as text. */
const fileWidth = 100;
/** Formats of a card, by the ending of its file. */
const cardFormats = { '.html': 'html', '.md': 'md', '.txt': 'txt' } as const;

export default class Bringup extends BaseCommand {
  static override summary =
    'First power-up card: meter checks, supply setting, voltage steps with expected readings and where to switch off.';
  static override description = `Reviews the project with the time domain, then prints what to measure before and during the first power-up, every figure from the engine.
Where a check fails or is not assessed, the card begins with it: do not power up.

Exit status: 0 nothing failed and all was assessed, 1 the card says not to power up, 2 could not run.`;
  static override examples = ['<%= config.bin %> bringup pad.yaml', '<%= config.bin %> bringup pad.yaml -o card.html -o card.md'];
  static override args = { file: stringArg({ description: 'project file (YAML)', required: true }) };
  static override flags = {
    output: string({
      char: 'o',
      multiple: true,
      multipleNonGreedy: true,
      description: 'Write the card to a file that ends in .html (prints on one A4 page), .md or .txt instead of the terminal (repeatable).',
      helpGroup: 'OUTPUT',
    }),
    force: boolean({ description: 'Write over files that exist.', helpGroup: 'OUTPUT' }),
    ...reportOnly,
  };

  async run(): Promise<object> {
    const { args, flags } = await this.parse(Bringup);
    const outputs = namedOutputs({ paths: flags.output ?? [], formats: cardFormats, force: flags.force });
    const design = designInFile({ path: args.file, root: this.config.root });
    const policies = defaultPolicies(this.config.root);
    const card = studied({ design, study: () => bringupCard(reviewedDesign({ design, policies })) });
    const named = { file: args.file, title: design.title ?? 'untitled', card };
    const page = bringupPage(named);
    const { width } = streamLook({ stream: process.stdout, colour: flags.color });
    if (outputs.length === 0) this.log(pageText({ page, width }));
    const texts = {
      html: () => pageHtml(page),
      md: () => pageMarkdown(page),
      txt: () => `${pageText({ page, width: fileWidth })}\n`,
    };
    writeAll({ outputs: outputs.map(({ path, format }) => ({ path, text: texts[format]() })), force: flags.force });
    for (const { path } of outputs) this.log(`wrote ${path}${card.blockers.length === 0 ? '' : ': do not power up'}`);
    process.exitCode = card.blockers.length === 0 || flags['report-only'] ? exitStatus.passed : exitStatus.failed;
    return bringupJson({ ...named, version: this.config.version });
  }
}
