import { bashCompletion } from './completion-bash.ts';
import { fishCompletion } from './completion-fish.ts';
import { zshCompletion } from './completion-zsh.ts';

/** A flag of a command, as a shell completes it. */
export interface CompletedFlag {
  readonly name: string;
  readonly short?: string;
  /** One line. */
  readonly description: string;
  readonly isRepeatable: boolean;
  /** What follows it: nothing, one of some words, a file, or what no list holds. */
  readonly value: 'nothing' | 'file' | 'other' | readonly string[];
}

/** A command, as a shell completes it. */
export interface CompletedCommand {
  readonly name: string;
  /** One line. */
  readonly summary: string;
  readonly flags: readonly CompletedFlag[];
  /** Words of each argument in turn; undefined where it is a file. Of more arguments the last ones count. */
  readonly args: readonly (readonly string[] | undefined)[];
}

/** What a completion script is made from. */
export interface Completed {
  readonly version: string;
  readonly commands: readonly CompletedCommand[];
}

/** The script of each shell, by its name. */
export const completionScripts: Readonly<Record<string, (completed: Completed) => string>> = {
  bash: bashCompletion,
  zsh: zshCompletion,
  fish: fishCompletion,
};
