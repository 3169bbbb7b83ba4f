/** Text as it stands in a drawing. */
export function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

/** A drawing of its own on white, with its title at the top. */
export function svgDocument({ title, width, height, body }: { title: string; width: number; height: number; body: string }): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" role="img" font-family="sans-serif" font-size="13">
<title>${escaped(title)}</title><rect width="${width}" height="${height}" fill="#ffffff"/><text x="8" y="22" font-weight="bold">${escaped(title)}</text>
${body}
</svg>
`;
}
