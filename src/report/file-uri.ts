/**
 * The path of a file as a URI, relative where the path is.
 *
 * @param path  with either slash
 *
 * @example fileUri('pads\\my pad.yaml').uri // 'pads/my%20pad.yaml'
 * @example fileUri('C:\\pads\\a.yaml').uri // 'file:///C:/pads/a.yaml'
 */
export function fileUri(path: string): { readonly uri: string; readonly isAbsolute: boolean } {
  const slashed = path.replaceAll('\\', '/').replace(/^(\.\/)+/, '');
  const isDrive = /^[A-Za-z]:\//.test(slashed);
  const [first = '', ...rest] = slashed.split('/');
  // half of a pair of code units has no encoding; a colon in the first segment would read as a scheme
  const encoded = (segment: string): string => encodeURIComponent(segment.replaceAll(/\p{Surrogate}/gu, '\uFFFD'));
  const joined = [isDrive ? first : encoded(first), ...rest.map(encoded)].join('/');
  if (isDrive) return { uri: `file:///${joined}`, isAbsolute: true };
  return slashed.startsWith('/') ? { uri: `file://${joined}`, isAbsolute: true } : { uri: joined, isAbsolute: false };
}
