import { Command } from '@oclif/core/command';
import { CLIError } from '@oclif/core/errors';
import { string } from '@oclif/core/flags';
import type { Diagnostic } from '../source/diagnostic.ts';
import { diagnosticsText, InputError, refusalJson, textOf, writeAll } from './engine.ts';
import { exitStatus } from './exit-status.ts';
import { streamLook } from './terminal.ts';

/** Work that ends sooner shows no status line, in ms. */
const quietFor = 500;

/** What every command has: `--json`, `--color`, one look for errors and one meaning of the exit status. */
export abstract class BaseCommand extends Command {
  static override enableJsonFlag = true;
  static override baseFlags = {
    color: string({
      options: ['auto', 'always', 'never'],
      default: 'auto',
      description: 'Colour the words; they say the same without it.',
      helpGroup: 'OUTPUT',
    }),
  };

  /** Prints problems of inputs to standard error; nothing under --json, where they are in the document. */
  protected printProblems(problems: readonly Diagnostic[]): void {
    if (!this.jsonEnabled()) printProblemsText(problems);
  }

  /** Writes a file that was asked for and says so. */
  protected written({ path, text, force }: { path: string; text: string; force: boolean }): void {
    writeAll({ outputs: [{ path, text }], force });
    this.log(`\nwrote ${path}`);
  }

  /**
   * A status line of work that takes more than a moment, on a terminal; nothing elsewhere.
   *
   * @param words  of the share that is done; percent where not given
   * @returns is told the share; takes the line away at 1
   */
  protected progress(words = (share: number): string => `${Math.floor(share * 100)} %`): (share: number) => void {
    if (!process.stderr.isTTY || this.jsonEnabled()) return () => undefined;
    const begun = Date.now();
    let shown = '';
    return (share) => {
      if (Date.now() - begun < quietFor) return;
      const text = share < 1 ? words(share) : '';
      if (text !== shown) process.stderr.write(`\r${text.padEnd(shown.length)}${text === '' ? '\r' : ''}`);
      shown = text;
    };
  }

  protected override catch(error: Error): Promise<void> {
    const problems = problemsOf({ error, command: this.id });
    if (problems === undefined) {
      process.exitCode = exitStatus.internal;
      if (this.jsonEnabled()) this.logJson({ error: { id: 'internal', message: error.message, at: null } });
      else printBug(error);
      return Promise.resolve();
    }
    refuse({ problems, json: this.jsonEnabled() });
    return Promise.resolve();
  }
}

/** Says why the tool could not run, as text or as a JSON document; exit status 2. */
export function refuse({ problems, json }: { problems: readonly Diagnostic[]; json: boolean }): void {
  process.exitCode = exitStatus.refused;
  if (json) process.stdout.write(`${JSON.stringify(refusalJson(problems), undefined, 2)}\n`);
  else printProblemsText(problems);
}

function printProblemsText(problems: readonly Diagnostic[]): void {
  const { width } = streamLook({ stream: process.stderr, colour: 'never' });
  process.stderr.write(diagnosticsText({ problems, textOf, width }));
}

/** Input errors and usage errors, which point to the help of the command where it is known; undefined for anything that is our own bug. */
function problemsOf({ error, command }: { error: Error; command: string | undefined }): readonly Diagnostic[] | undefined {
  if (error instanceof InputError) return error.problems;
  if (!(error instanceof CLIError)) return undefined;
  const [message = 'cannot be run like this', ...rest] = error.message
    .split('\n')
    .filter((line) => line.trim() !== '' && !/^(See more help|The following errors? occurred)/.test(line))
    .map((line) => line.trim());
  const help = `see tankproof ${command === undefined ? '' : `${command} `}--help`;
  const missing = /^Missing \d+ required arg/.test(message) ? rest[0]?.split(/\s{2,}/) : undefined;
  if (missing !== undefined) return [{ id: 'usage', message: `${missing[0]} is missing: ${missing[1]}`, help }];
  return [{ id: 'usage', message: lowered(message), help: [...rest, help].join('; ') }];
}

function lowered(message: string): string {
  return message.charAt(0).toLowerCase() + message.slice(1).replace(/\.$/, '');
}

/** Ends a run that failed before a command had it: a usage error with status 2, anything else as a bug of ours. */
export function failedOutsideCommand({ error, json }: { error: unknown; json: boolean }): void {
  const problems = error instanceof Error ? problemsOf({ error, command: undefined }) : undefined;
  if (problems !== undefined) {
    refuse({ problems, json });
    return;
  }
  process.exitCode = exitStatus.internal;
  printBug(error);
}

/** What is said of a bug of ours. */
function printBug(error: unknown): void {
  // of the stack only its places: the tool is a few lines of code, one of which would be printed with it
  const places = error instanceof Error ? (error.stack ?? '').split('\n').filter((line) => /^ +at /.test(line)) : [];
  const words = [error instanceof Error ? `${error.name}: ${error.message}` : String(error), ...places.slice(0, 8)];
  process.stderr.write(`${words.join('\n')}\nThis is a bug of tankproof; please report it with the input that caused it.\n`);
}
