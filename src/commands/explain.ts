import { string as stringArg } from '@oclif/core/args';
import { BaseCommand } from '../cli/base-command.ts';
import { defaultPolicies, didYouMeanHelp, explained, explanationList, explanationText, InputError, levelsText } from '../cli/engine.ts';
import { streamLook } from '../cli/terminal.ts';

export default class Explain extends BaseCommand {
  static override summary = 'What a check does, why, its formula, source, levels and remedy; without an id, the list of checks.';
  static override examples = ['<%= config.bin %> explain', '<%= config.bin %> explain switch-surge-voltage'];
  static override args = { check: stringArg({ description: 'id of a check' }) };

  async run(): Promise<object> {
    const { args, flags } = await this.parse(Explain);
    const { width } = streamLook({ stream: process.stdout, colour: flags.color });
    if (args.check === undefined) {
      this.log(explanationList({ checks: explained, width }));
      return { checks: explained.map(({ id, part, title, since }) => ({ id, part, title, since })) };
    }
    const check = explained.find(({ id }) => id === args.check);
    if (check === undefined) {
      const names = explained.map(({ id }) => id);
      const help = didYouMeanHelp({ word: args.check, names }) ?? 'tankproof explain lists the ids';
      throw new InputError([{ id: 'unknown-check', message: `there is no check "${args.check}"`, help }]);
    }
    const policy = defaultPolicies(this.config.root).get(check.id);
    const levels =
      policy === undefined ? undefined : levelsText({ policy, dimension: check.dimension, sense: check.sense, docs: check.docs });
    this.log(explanationText({ check, levels, width }));
    const { id, part, title, since } = check;
    const { what, why, formula, source, remedy } = check.docs;
    return { id, part, title, since, what, why, formula, source, remedy, levels: levels ?? null };
  }
}
