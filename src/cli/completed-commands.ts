import { join } from 'node:path';
import { checkIds } from '../checks/registry.ts';
import { partKinds } from '../parts/part.ts';
import type { CompletedCommand, CompletedFlag } from '../report/completion.ts';
import { namesIn } from './files.ts';
import { partsInFolders } from './parts-folders.ts';

/** What the manifest says of a command. */
export interface ListedCommand {
  readonly id: string;
  readonly summary?: string | undefined;
  readonly hidden?: boolean;
  readonly flags: Readonly<Record<string, ListedFlag>>;
  readonly args: Readonly<Record<string, { readonly options?: readonly string[] | undefined }>>;
}

interface ListedFlag {
  readonly name: string;
  readonly char?: string | undefined;
  readonly summary?: string | undefined;
  readonly description?: string | undefined;
  readonly hidden?: boolean | undefined;
  readonly type: string;
  readonly multiple?: boolean | undefined;
  readonly options?: readonly string[] | undefined;
}

/**
 * The commands as a shell completes them: flags with their words, names of checks, parts and examples.
 *
 * @param commands  of the manifest
 * @param root      of the installed tool
 */
export function completedCommands({ commands, root }: { commands: readonly ListedCommand[]; root: string }): readonly CompletedCommand[] {
  const library = partsInFolders({ root, projectPath: root, folders: [] });
  const parts = partKinds.flatMap((kind) => library.names(kind)).toSorted();
  const examples = namesIn(join(root, 'examples')).flatMap((file) => (file.endsWith('.yaml') ? [file.slice(0, -'.yaml'.length)] : []));
  /** Words that the manifest does not know: of arguments by command and name, of flags likewise. */
  const words: Readonly<Record<string, readonly string[]>> = {
    'explain check': [...checkIds].toSorted(),
    'check --only': [...checkIds].toSorted(),
    'parts text': parts,
    'bank --part': library.names('capacitors').toSorted(),
    'compare --fail-on': ['warn', 'not-assessed', 'worse', 'worse:5%'],
    'new --from': examples.map((name) => `examples/${name}`),
  };
  return [...commands]
    .filter(({ hidden }) => hidden !== true)
    .toSorted((a, b) => (a.id < b.id ? -1 : 1))
    .map(({ id, summary = '', flags, args }) => ({
      name: id,
      summary: firstSentence(summary),
      flags: [...Object.values(flags).flatMap((flag) => completedFlag({ flag, words: words[`${id} --${flag.name}`] })), help],
      args: Object.entries(args).map(([name, { options }]) => options ?? words[`${id} ${name}`]),
    }));
}

/** Flags that name a file or a folder. */
const fileFlags: ReadonlySet<string> = new Set(['output', 'plot', 'csv', 'folder', 'limits']);

const help: CompletedFlag = { name: 'help', short: 'h', description: 'Show help of the command.', isRepeatable: false, value: 'nothing' };

function completedFlag({ flag, words }: { flag: ListedFlag; words: readonly string[] | undefined }): readonly CompletedFlag[] {
  const { name, char, summary, description, hidden, type, multiple, options } = flag;
  if (hidden === true) return [];
  const value = type === 'boolean' ? 'nothing' : (options ?? words ?? (fileFlags.has(name) ? 'file' : 'other'));
  const text = firstSentence(summary ?? description ?? '');
  return [{ name, ...(char === undefined ? {} : { short: char }), description: text, isRepeatable: multiple === true, value }];
}

function firstSentence(text: string): string {
  return text.split('\n')[0]!.replace(/(?<=[a-z)])[.;:] .*$/, '');
}
