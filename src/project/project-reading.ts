import type { Location } from '../source/location.ts';
import type { Quantities } from '../source/quantities.ts';
import type { SourceNode } from '../source/source-tree.ts';
import type { YamlSource } from '../source/yaml-source.ts';

/** A project file whose structure was looked at: values by dotted path, undefined where a key is absent or could not be read. */
export interface ProjectReading {
  readonly source: YamlSource;
  readonly quantities: Quantities;
  readonly node: (path: string) => SourceNode | undefined;
  /** SI number of a quantity. */
  readonly number: (path: string) => number | undefined;
  readonly text: (path: string) => string | undefined;
  /** Whole number written without a unit. */
  readonly count: (path: string) => number | undefined;
  readonly flag: (path: string) => boolean | undefined;
  readonly locate: (path: string) => Location;
}

/**
 * Access to the values of a project file.
 *
 * @param source      the parsed file
 * @param quantities  its numbers
 * @returns accessors by dotted path
 */
export function projectReading({ source, quantities }: { source: YamlSource; quantities: Quantities }): ProjectReading {
  const scalar = (path: string): string | number | boolean | undefined => {
    const node = source.nodeAt(path);
    return node?.kind === 'scalar' ? node.value : undefined;
  };
  return {
    source,
    quantities,
    node: source.nodeAt,
    locate: source.locate,
    number: (path) => {
      const node = source.nodeAt(path);
      return node && quantities.get(node);
    },
    text: (path) => {
      const value = scalar(path);
      return typeof value === 'string' ? value : undefined;
    },
    count: (path) => {
      const value = scalar(path);
      return typeof value === 'number' ? value : undefined;
    },
    flag: (path) => {
      const value = scalar(path);
      return typeof value === 'boolean' ? value : undefined;
    },
  };
}
