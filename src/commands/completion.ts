import { string as stringArg } from '@oclif/core/args';
import { BaseCommand } from '../cli/base-command.ts';
import { completedCommands, completionScripts } from '../cli/engine.ts';

const shells = Object.keys(completionScripts);

export default class Completion extends BaseCommand {
  static override summary = 'A script with which a shell completes commands, flags, checks and parts.';
  static override description = `Prints the script; it holds every word itself, so that nothing runs when Tab is pressed. Print it anew after an update.

bash: eval "$(tankproof completion bash)" in ~/.bashrc. zsh: eval "$(tankproof completion zsh)" in ~/.zshrc, after compinit.
fish: tankproof completion fish > ~/.config/fish/completions/tankproof.fish`;
  static override examples = ['eval "$(<%= config.bin %> completion bash)"'];
  static override args = { shell: stringArg({ description: shells.join(', '), options: shells, required: true }) };

  async run(): Promise<object> {
    const { args } = await this.parse(Completion);
    const { root, version, commands } = this.config;
    const script = completionScripts[args.shell]!({ version, commands: completedCommands({ commands, root }) });
    this.log(script.trimEnd());
    return { shell: args.shell, script };
  }
}
