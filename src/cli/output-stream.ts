import { exitStatus } from './exit-status.ts';

/**
 * What happens when standard output cannot be written: a reader that has seen enough, as `head`, ends nothing badly; anything else, such as a
 * full disk, is said once, and the run ends as one that could not be made.
 */
export function watchOutput(): void {
  let isTold = false;
  // @oclif/core listens too, and throws
  process.stdout.removeAllListeners('error');
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (isTold || error.code === 'EPIPE') return;
    isTold = true;
    const cause = error.code === 'ENOSPC' ? 'no space is left' : (error.code ?? error.message);
    process.stderr.write(`error: standard output cannot be written: ${cause} [not-written]\n`);
    // after what the command made of its own work
    process.once('exit', () => (process.exitCode = exitStatus.refused));
  });
}
