import { execFileSync } from 'node:child_process';
import { InputError } from '../source/diagnostic.ts';

/** Longest that git is waited for, in ms: a large repository on a slow disk takes seconds. */
const longestWait = 60_000;
/** Most that is read of what git prints. */
const mostPrinted = 64_000_000;

/** A refusal for a reason that has to do with git. */
export function gitRefusal(problem: { id: string; message: string; help: string }): InputError {
  return new InputError([problem]);
}

/**
 * What git prints when it is run without a shell in the working folder, its pathnames taken as they are.
 *
 * @param args     of git
 * @param about    what was asked for, for the message
 * @param mayFail  whether an error of git means that there is no such thing: nothing is printed then
 * Errors: InputError where git is not installed, the working folder is in no repository, or git fails for another reason.
 */
export function gitRun({ args, about, mayFail = false }: { args: readonly string[]; about: string; mayFail?: boolean }): Buffer {
  const env = { ...process.env, LC_ALL: 'C', GIT_LITERAL_PATHSPECS: '1', GIT_OPTIONAL_LOCKS: '0', GIT_TERMINAL_PROMPT: '0' };
  try {
    return execFileSync('git', args, { env, stdio: ['ignore', 'pipe', 'pipe'], timeout: longestWait, maxBuffer: mostPrinted });
  } catch (error) {
    const { code, stderr, status } = error as { code?: string; stderr?: Buffer; status?: number | null };
    if (code === 'ENOENT' || code === 'EACCES') {
      const help = 'install git, or compare with a file: git show REV:path > old.yaml';
      throw gitRefusal({ id: 'no-git', message: `${about}: git cannot be run here`, help });
    }
    const said = stderr?.toString('utf8') ?? '';
    if (/not a git repository/i.test(said)) {
      const help = 'run it in a working copy of the repository';
      throw gitRefusal({ id: 'not-a-repository', message: `${about}: the working folder is in no git repository`, help });
    }
    if (mayFail && typeof status === 'number') return Buffer.alloc(0);
    const [first = `it ended with ${String(status ?? code)}`] = said.split('\n').filter((line) => line.trim() !== '');
    const help = said.includes('dubious ownership')
      ? 'tell git to trust it: git config --global --add safe.directory PATH'
      : 'try the same with git show REV:path';
    throw gitRefusal({ id: 'git-failed', message: `${about}: git says: ${first.replace(/^(fatal|error): /, '')}`, help });
  }
}
