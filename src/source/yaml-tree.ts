import { isAlias, isMap, isPair, isScalar, isSeq } from 'yaml';
import type { Pair, Scalar, YAMLMap } from 'yaml';
import { controlCharacterAt } from './decode-text.ts';
import type { Location } from './location.ts';
import { quoted } from './quoted.ts';
import type { MapEntry, SourceNode } from './source-tree.ts';
import type { TextProblem } from './yaml-syntax.ts';

/** Deepest nesting that is read; the format needs six levels. */
const deepest = 32;

/** A number in the one spelling that everybody reads alike. */
const plainNumber = /^[-+]?(0|[1-9]\d*)?(\.\d*)?([eE][-+]?\d+)?$/;

interface Building {
  readonly text: string;
  readonly place: (start: number, end: number) => Location;
  readonly problems: TextProblem[];
  /** Offsets at which a quoted text begins. */
  readonly quotes: number[];
}

interface Properties {
  readonly anchor?: string | undefined;
  readonly tag?: string | undefined;
  readonly range?: readonly [number, number, number] | null | undefined;
}

function refuseProperties({ anchor, tag, range }: Properties, { text, problems }: Building): void {
  const end = range?.[0] ?? 0;
  if (anchor !== undefined) {
    const start = Math.max(0, text.lastIndexOf(`&${anchor}`, end));
    const message = `\`&${anchor.slice(0, 20)}\` names a value for reuse, which is not part of the format`;
    problems.push({
      id: 'anchor',
      message,
      help: 'write the value where it is needed, in quotes if it begins with &',
      start,
      end: start + 1,
    });
  }
  if (tag !== undefined) {
    let start = Math.max(0, text.lastIndexOf('!', end));
    while (text[start - 1] === '!') start--;
    const message = 'a tag beginning with `!` is not part of the format';
    problems.push({ id: 'tag', message, help: 'leave the tag out, or put the text in quotes', start, end: start + 1 });
  }
}

function refuseText(value: string, range: readonly [number, number], { problems }: Building): void {
  if (controlCharacterAt(value) !== undefined)
    problems.push({
      id: 'not-text',
      message: 'the text contains a control character',
      help: 'leave the backslash escape out',
      start: range[0],
      end: range[1],
    });
}

function scalarNode(node: Scalar, building: Building, key: Location): SourceNode {
  const [start, end] = node.range ?? [0, 0];
  const { value } = node;
  if (node.type === 'QUOTE_DOUBLE' || node.type === 'QUOTE_SINGLE') building.quotes.push(start);
  if (value === null || value === undefined) return { kind: 'nothing', at: key };
  const text = node.source ?? textOf(value);
  if (typeof value === 'number') {
    if (!Number.isFinite(value) || !plainNumber.test(text)) {
      const message = `${quoted(text)} is not a plain decimal number`;
      const help = Number.isFinite(value) ? `write ${value}, or put it in quotes if it is a name` : 'write a finite number';
      building.problems.push({ id: 'odd-number', message, help, start, end });
    }
  } else if (typeof value !== 'boolean') refuseText(textOf(value), [start, end], building);
  const kept = typeof value === 'number' || typeof value === 'boolean' ? value : textOf(value);
  return { kind: 'scalar', value: kept, text, at: building.place(start, end) };
}

/** A key without a value. */
const isBare = ({ value }: Pair): boolean => (isScalar(value) ? value.value === null : value === null);

/** `{a: 1,5 V}` is a = 1 and a key `5 V` to YAML. */
function isDecimalComma({ pair, flow, text }: { pair: Pair; flow: boolean; text: string }): boolean {
  if (!flow || !isScalar(pair.key) || !pair.key.range || !isBare(pair)) return false;
  return /^\d/.test(String(pair.key.value)) && /\d,$/.test(text.slice(0, pair.key.range[0]).slice(-2));
}

/** `{voltage:18 V}` and `-name: x` are keys to YAML, and nobody's: the space that is missing, and what was meant. */
function missingSpace({
  name,
  flow,
  isBare,
}: {
  name: string;
  flow: boolean;
  isBare: boolean;
}): { behind: string; meant: string } | undefined {
  const [, key, value] = /^([A-Za-z]\w*):(\S.*)$/.exec(flow && isBare ? name : '') ?? [];
  if (key !== undefined) return { behind: `${key}:`, meant: `${key}: ${value}` };
  return /^-[A-Za-z]\w*$/.test(name) ? { behind: '-', meant: `- ${name.slice(1)}: …` } : undefined;
}

/** A scalar's value as text. */
function textOf(value: unknown): string {
  return typeof value === 'string' ? value : JSON.stringify(value);
}

function mapEntry({ pair, flow, depth }: { pair: Pair; flow: boolean; depth: number }, building: Building): MapEntry | undefined {
  const { problems, place, text } = building;
  const { key } = pair;
  if (!isScalar(key) || !key.range) {
    const [start, end] = (isMap(key) || isSeq(key) || isAlias(key)) && key.range ? key.range : [0, 1];
    problems.push({ id: 'yaml-syntax', message: 'a key is not plain text', help: 'write keys as single words', start, end });
    return undefined;
  }
  refuseProperties(key, building);
  const [start, end] = key.range;
  const name = textOf(key.value ?? '');
  if (name === '') problems.push({ id: 'yaml-syntax', message: 'a key is empty', help: 'write a key before `:`', start, end: start + 1 });
  if (name === '<<')
    problems.push({ id: 'merge-key', message: 'the merge key `<<` is not part of the format', help: 'write the keys out', start, end });
  if (isDecimalComma({ pair, flow, text }))
    problems.push({
      id: 'decimal-comma',
      message: 'a comma ends the value inside { }',
      help: 'write a decimal point, such as 1.5',
      start: start - 1,
      end: start,
    });
  const glued = missingSpace({ name, flow, isBare: isBare(pair) });
  if (glued)
    problems.push({
      id: 'yaml-syntax',
      message: `the space after \`${glued.behind}\` is missing`,
      help: `write \`${glued.meant}\``,
      start,
      end,
    });
  refuseText(name, [start, end], building);
  const keyAt = place(start, end);
  return { key: name, keyAt, value: treeNode({ node: pair.value, depth, key: keyAt }, building) };
}

function mapEntries({ map, depth }: { map: YAMLMap; depth: number }, building: Building): readonly MapEntry[] {
  const seen = new Set<string>();
  return map.items.flatMap((pair) => {
    const entry = isPair(pair) ? mapEntry({ pair, flow: map.flow === true, depth }, building) : undefined;
    if (!entry) return [];
    const { offset, length } = entry.keyAt;
    if (seen.has(entry.key) && !entry.key.startsWith('-'))
      building.problems.push({
        id: 'duplicate-key',
        message: `the key ${quoted(entry.key)} is given twice`,
        help: 'keep one of them',
        start: offset,
        end: offset + length,
      });
    seen.add(entry.key);
    return [entry];
  });
}

/**
 * The tree of a parsed YAML node, with every construct that the format leaves out reported: anchors, aliases, tags, merge keys,
 * repeated keys, odd spellings of numbers, decimal commas, control characters, deep nesting.
 *
 * @param node      of the yaml package
 * @param depth     levels above it
 * @param key       position reported for a value that is missing
 * @param building  the text, how to place an offset in it, and the list that problems are added to
 * @returns the tree; not to be used when problems were added
 */
export function treeNode({ node, depth, key }: { node: unknown; depth: number; key: Location }, building: Building): SourceNode {
  const { problems, place } = building;
  if (isAlias(node)) {
    const [start, end] = node.range ?? [0, 1];
    problems.push({
      id: 'alias',
      message: '`*` refers to another value, which is not part of the format',
      help: 'write the value out',
      start,
      end,
    });
    return { kind: 'nothing', at: key };
  }
  if (isScalar(node)) {
    refuseProperties(node, building);
    return scalarNode(node, building, key);
  }
  if (!isMap(node) && !isSeq(node)) return { kind: 'nothing', at: key };
  refuseProperties(node, building);
  const [start, end] = node.range ?? [0, 0];
  const at = place(start, end);
  if (depth >= deepest) {
    problems.push({
      id: 'too-deep',
      message: `more than ${deepest} levels of nesting`,
      help: 'the format needs six',
      start,
      end: start + 1,
    });
    return { kind: 'nothing', at };
  }
  if (isMap(node)) return { kind: 'map', entries: mapEntries({ map: node, depth: depth + 1 }, building), at };
  return { kind: 'list', items: node.items.map((item) => treeNode({ node: item, depth: depth + 1, key: at }, building)), at };
}
