import { LineCounter, parseDocument } from 'yaml';
import type { Document } from 'yaml';
import { textProblem } from './decode-text.ts';
import type { Diagnostic, Outcome } from './diagnostic.ts';
import type { Location } from './location.ts';
import type { ListKeys } from './mixed-lines.ts';
import { locate, locateKey, nodeAt } from './source-tree.ts';
import type { SourceNode } from './source-tree.ts';
import { syntaxProblem } from './yaml-syntax.ts';
import type { TextProblem } from './yaml-syntax.ts';
import { treeNode } from './yaml-tree.ts';

/** Signs of structure that are parsed; more are a machine's work, and would cost seconds. A full project file has about 200. */
const mostSigns = 20_000;

/** A parsed file: the tree and how to find a place in it. */
export interface YamlSource {
  readonly root: SourceNode;
  /** Node under a dotted path such as `loads.1.power`. */
  readonly nodeAt: (path: string) => SourceNode | undefined;
  /** Position of the value under a dotted path; where the key is absent, of the key of the nearest parent that exists. */
  readonly locate: (path: string) => Location;
  /** Position of the key under a dotted path; where it is absent, of the key of the nearest parent that exists. */
  readonly locateKey: (path: string) => Location;
}

function placer({ text, path, lines }: { text: string; path: string; lines: LineCounter }): (start: number, end: number) => Location {
  return (start, end) => {
    const { line, col } = lines.linePos(start);
    const lineEnd = text.indexOf('\n', start);
    const stop = lineEnd < 0 ? text.length : lineEnd;
    return { path, line: Math.max(1, line), column: Math.max(1, col), offset: start, length: Math.max(0, Math.min(end, stop) - start) };
  };
}

function directiveProblem(text: string): TextProblem | undefined {
  const found = /^%\S*/m.exec(text);
  if (!found) return undefined;
  return {
    id: 'directive',
    message: 'a directive beginning with `%` is not part of the format',
    help: 'remove the line',
    start: found.index,
    end: found.index + found[0].length,
  };
}

function refused({
  problems,
  place,
}: {
  problems: readonly TextProblem[];
  place: (start: number, end: number) => Location;
}): Outcome<never> {
  const placed = [...problems]
    .sort((a, b) => a.start - b.start)
    .map(({ start, end, ...rest }): Diagnostic => ({ ...rest, at: place(start, end) }));
  return { ok: false, problems: placed };
}

/**
 * The positioned tree of a YAML 1.2 file, in the plain subset that reads the same to everybody.
 *
 * @param text  the file, decoded; a byte order mark is ignored
 * @param path  of the file, for positions
 * @param lists keys of the file that hold a list, with the key that an entry begins with
 * @returns the tree, or everything in the text that the format leaves out; of syntax errors the first one, since the others follow
 *   from it
 */
export function parseYaml({ text: given, path, lists = {} }: { text: string; path: string; lists?: ListKeys }): Outcome<YamlSource> {
  const text = given.startsWith('\uFEFF') ? given.slice(1) : given;
  const unreadable = textProblem({ text, path });
  if (unreadable) return { ok: false, problems: [unreadable] };
  const lines = new LineCounter();
  const place = placer({ text, path, lines });
  if ((text.match(/[[\]{}"',:?&*!|>-]|\n%/g)?.length ?? 0) > mostSigns)
    return { ok: false, problems: [{ id: 'too-complex', message: 'the file has too many entries', help: 'give a project or part file' }] };
  let document: Document.Parsed;
  try {
    document = parseDocument(text, {
      lineCounter: lines,
      prettyErrors: false,
      stringKeys: true,
      uniqueKeys: false,
      version: '1.2',
      schema: 'core',
      logLevel: 'error',
    });
  } catch {
    // the parser calls itself for every level of nesting, and runs out of stack before this tree is looked at
    return { ok: false, problems: [{ id: 'too-deep', message: 'the file is nested too deeply', help: 'the format needs six levels' }] };
  }
  const directive = directiveProblem(text);
  if (directive) return refused({ problems: [directive], place });
  const problems: TextProblem[] = [];
  const quotes: number[] = [];
  const root = treeNode({ node: document.contents, depth: 0, key: place(0, 1) }, { text, place, problems, quotes });
  const ownReasons = problems.filter(({ id }) => id !== 'yaml-syntax' && id !== 'duplicate-key');
  const syntax = syntaxProblem({ document, text, quotes, lists });
  if (syntax && !ownReasons.some(({ start }) => start <= syntax.start)) return refused({ problems: [syntax], place });
  if (problems.length > 0) return refused({ problems, place });
  return {
    ok: true,
    value: {
      root,
      nodeAt: (dotted) => nodeAt(root, dotted.split('.')),
      locate: (dotted) => locate({ root, path: dotted }),
      locateKey: (dotted) => locateKey({ root, path: dotted }),
    },
  };
}
