import { unitOf } from '../units/dimensions-table.ts';
import { entryOf, nodeAt } from '../source/source-tree.ts';
import type { MapNode, SourceNode } from '../source/source-tree.ts';
import type { ProjectKey } from './project-key.ts';

/** Digits that a value is written with: two that differ by rounding alone are one. */
const digits = 12;

/**
 * A value as it is written in a project file: `18 V`, `5 %`, `24`.
 *
 * @param value  in SI
 * @param key    where it is to stand
 *
 * @example valueText({ value: 0.05, key: { dimension: 'ratio', form: 'percent' } }) // '5 %'
 */
export function valueText({ value, key: { dimension, form } }: { value: number; key: Pick<ProjectKey, 'dimension' | 'form'> }): string {
  const plain = (number: number): string => String(Number(number.toPrecision(digits)));
  if (form === 'number') return plain(value);
  return form === 'percent' ? `${plain(100 * value)} %` : `${plain(value)} ${unitOf(dimension)}`;
}

/**
 * The text of a project file with another value at a key, everything else as it was; a key that is not there yet is added to the
 * nearest group that is.
 *
 * @param text   of the file
 * @param root   of its tree
 * @param key    the key
 * @param value  as it is to be written
 * @returns the text; undefined where the value stands over several lines and cannot be replaced
 */
export function editedProject({
  text: given,
  root,
  key: { segments },
  value,
}: {
  text: string;
  root: SourceNode;
  key: Pick<ProjectKey, 'segments'>;
  value: string;
}): string | undefined {
  const text = given.startsWith('\uFEFF') ? given.slice(1) : given;
  const node = nodeAt(root, segments);
  if (node?.kind === 'scalar') {
    const { offset, length } = node.at;
    const isWhole =
      text.slice(offset, offset + length).includes(node.text) || text.slice(offset, offset + length).includes(`${node.value}`);
    return isWhole ? `${text.slice(0, offset)}${value}${text.slice(offset + length)}` : undefined;
  }
  for (let depth = segments.length - 1; depth >= 0; depth--) {
    const parent = nodeAt(root, segments.slice(0, depth));
    if (parent?.kind === 'map' && entryOf(parent, segments[depth]!) === undefined) {
      return added({ text, parent, addition: nested({ segments: segments.slice(depth), value }) });
    }
  }
  return undefined;
}

/** `a: {b: value}` */
function nested({ segments, value }: { segments: readonly string[]; value: string }): string {
  const inner = segments.toReversed().reduce((text, segment) => `{${segment}: ${text}}`, value);
  return inner.slice(1, -1);
}

/** Before the first key of a mapping, in braces or indented. */
function added({ text, parent, addition }: { text: string; parent: MapNode; addition: string }): string | undefined {
  const [first] = parent.entries;
  const isFlow = text[parent.at.offset] === '{';
  if (first === undefined) {
    const start = parent.at.offset + 1;
    return isFlow ? `${text.slice(0, start)}${addition}${text.slice(start)}` : undefined;
  }
  const { offset, column } = first.keyAt;
  return `${text.slice(0, offset)}${addition}${isFlow ? ', ' : `\n${' '.repeat(column - 1)}`}${text.slice(offset)}`;
}
