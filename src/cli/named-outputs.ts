import { resolve } from 'node:path';
import { InputError } from '../source/diagnostic.ts';
import { mayWrite } from './output-files.ts';

/** A file that `--output` names, and the format that its ending asks for. */
export interface NamedOutput<F> {
  readonly path: string;
  readonly format: F;
}

/**
 * The files that `--output` names, each with its format; refused before the work where one could not be written.
 *
 * @param paths    as they were given
 * @param formats  by ending, `.sarif.json` and the like before `.json`
 * @param force    write over files that exist
 * Errors: InputError where an ending is unknown, a file is named twice or is to be kept, or its folder does not exist.
 */
export function namedOutputs<F>({
  paths,
  formats,
  force,
}: {
  paths: readonly string[];
  formats: Readonly<Record<string, F>>;
  force: boolean;
}): readonly NamedOutput<F>[] {
  const endings = Object.keys(formats);
  const seen = new Set<string>();
  return paths.map((path) => {
    const ending = endings.find((one) => path.toLowerCase().endsWith(one));
    if (ending === undefined)
      throw usage(`${path} has none of the endings ${endings.join(', ')}`, `write a name such as review${endings[0]}`);
    if (seen.has(resolve(path))) throw usage(`${path} is named twice`, 'name each file once');
    seen.add(resolve(path));
    mayWrite({ option: '--output', path, force });
    return { path, format: formats[ending]! };
  });
}

/**
 * Refuses a file that `--plot` may not write, the one rule for every command: a drawing is an SVG and its name says so.
 *
 * @param path   as it was given; undefined where none was asked for
 * @param force  write over a file that exists
 * Errors: InputError where the ending is another, the file is to be kept, or its folder does not exist.
 */
export function mayPlot({ path, force }: { path: string | undefined; force: boolean }): void {
  if (path === undefined) return;
  if (!path.toLowerCase().endsWith('.svg')) {
    const help = `write ${path.replace(/\.[a-z]{1,5}$/i, '')}.svg`;
    throw new InputError([{ id: 'usage', message: `--plot: ${path} does not end with .svg; a drawing is an SVG`, help }]);
  }
  mayWrite({ option: '--plot', path, force });
}

function usage(words: string, help: string): InputError {
  return new InputError([{ id: 'usage', message: `--output: ${words}`, help }]);
}
