/** A piece of a segment: one sign that passes a test, or any run of signs. */
type Piece = 'run' | ((sign: string) => boolean);

/** More alternatives than this are no pattern that a person writes. */
const mostAlternatives = 256;

/**
 * Whether a path is a pattern, to be matched rather than named.
 *
 * @example isPattern('pads/*.yaml') // true
 */
export function isPattern(path: string): boolean {
  return /[*?[{]/.test(path);
}

/**
 * The patterns that one with alternatives in braces stands for; itself where it has none, or more than 256 in all.
 *
 * @param pattern  such as `{pads,coils}/*.yaml`
 *
 * @example alternatives('{a,b}.yaml') // ['a.yaml', 'b.yaml']
 */
export function alternatives(pattern: string): readonly string[] {
  let patterns = [pattern];
  for (;;) {
    const next = patterns.flatMap((one) => {
      const [whole, inside] = /\{([^{}]*,[^{}]*)\}/.exec(one) ?? [];
      return whole === undefined || inside === undefined ? [one] : inside.split(',').map((word) => one.replace(whole, () => word));
    });
    if (next.length > mostAlternatives) return [pattern];
    if (next.length === patterns.length && next.every((one, i) => one === patterns[i])) return [...new Set(next)];
    patterns = next;
  }
}

/**
 * Whether a segment of a path, a name between two slashes, matches a segment of a pattern: `*` is any run of signs, `?` any one sign,
 * `[a-z]` one of these, `[!a-z]` none of these. A name that begins with a point is matched by a pattern that does so too. The time
 * grows with the product of both lengths, whatever the pattern.
 *
 * @param name     without slash
 * @param pattern  without slash and braces
 *
 * @example segmentMatches({ name: 'pad.yaml', pattern: '*.yaml' }) // true
 */
export function segmentMatches({ name, pattern }: { name: string; pattern: string }): boolean {
  if (name.startsWith('.') && !pattern.startsWith('.')) return false;
  const pieces = piecesOf(pattern);
  // the pieces that may come next, a run among them as long as it goes on
  let at = afterRuns({ pieces, from: new Set([0]) });
  for (const sign of name) {
    const next = new Set<number>();
    for (const i of at) {
      const piece = pieces[i];
      if (piece === 'run') next.add(i);
      else if (piece?.(sign) === true) next.add(i + 1);
    }
    at = afterRuns({ pieces, from: next });
  }
  return at.has(pieces.length);
}

/** Where one can be without a further sign: a run may be empty. */
function afterRuns({ pieces, from }: { pieces: readonly Piece[]; from: ReadonlySet<number> }): ReadonlySet<number> {
  const all = new Set(from);
  for (const i of all) if (pieces[i] === 'run') all.add(i + 1);
  return all;
}

function piecesOf(pattern: string): readonly Piece[] {
  const pieces: Piece[] = [];
  for (let rest = pattern; rest !== '';) {
    const [class_, not = '', signs = ''] = /^\[([!^]?)(\]?[^\]]*)\]/.exec(rest) ?? [];
    const sign = String.fromCodePoint(rest.codePointAt(0)!);
    if (class_ !== undefined && signs !== '') pieces.push((one) => isOneOf({ one, signs }) === (not === ''));
    else if (sign === '*') pieces.push('run');
    else pieces.push(sign === '?' ? () => true : (one) => one === sign);
    rest = rest.slice(class_ !== undefined && signs !== '' ? class_.length : sign.length);
  }
  return pieces;
}

function isOneOf({ one, signs }: { one: string; signs: string }): boolean {
  return [...signs.matchAll(/([^])-([^])|([^])/gu)].some(([, low, high, single]) =>
    low !== undefined && high !== undefined ? low <= one && one <= high : one === single,
  );
}

/**
 * Whether the path of a file matches a pattern: segment by segment, `**` being any number of folders.
 *
 * @param path     with slashes, relative to the same folder as the pattern
 * @param pattern  with slashes; may have alternatives in braces
 *
 * @example pathMatches({ path: 'pads/a/b.yaml', pattern: 'pads/**' }) // true
 */
export function pathMatches({ path, pattern }: { path: string; pattern: string }): boolean {
  const names = segmentsOf(path);
  return alternatives(pattern).some((one) => {
    const patterns = segmentsOf(one);
    // which beginnings of the path match the patterns so far
    let ends = new Set([0]);
    for (const [i, segment] of patterns.entries()) {
      const next = new Set<number>();
      for (const end of ends)
        if (segment === '**') {
          // at the end of a pattern it is what is below a folder, not the folder
          if (i < patterns.length - 1) next.add(end);
          for (let to = end; to < names.length && !names[to]!.startsWith('.'); to += 1) next.add(to + 1);
        } else if (end < names.length && (names[end] === segment || segmentMatches({ name: names[end]!, pattern: segment })))
          next.add(end + 1);
      ends = next;
    }
    return ends.has(names.length);
  });
}

function segmentsOf(path: string): readonly string[] {
  return path.split('/').filter((segment) => segment !== '' && segment !== '.');
}
