import { flush } from '@oclif/core/flush';
import { run } from '@oclif/core/run';
import { settings } from '@oclif/core/settings';
import { failedOutsideCommand } from './cli/base-command.ts';
import { watchOutput } from './cli/output-stream.ts';

/** Runs the command line of this process; the root is the folder of package.json. */
export async function start({ root }: { root: string }): Promise<void> {
  settings.enableAutoTranspile = false;
  watchOutput();
  try {
    await run(process.argv.slice(2), root);
    await flush();
  } catch (error) {
    failedOutsideCommand({ error, json: process.argv.includes('--json') });
  }
}
