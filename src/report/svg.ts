/** Width of every drawing, in its own units. */
export const svgWidth = 900;

/** Text as it may stand in a drawing. */
export function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

/** A drawing that stands alone: a title above a body of the given height, on white. */
export function svgDocument({ title, height, body }: { title: string; height: number; body: string }): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${svgWidth} ${height}" role="img" font-family="sans-serif" font-size="13">
<title>${escaped(title)}</title><rect width="${svgWidth}" height="${height}" fill="#ffffff"/><text x="8" y="22" font-weight="bold">${escaped(title)}</text>
${body}
</svg>
`;
}
