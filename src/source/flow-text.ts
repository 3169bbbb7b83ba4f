/**
 * A plain value as it is written on one line of a file.
 *
 * @param value  text, number, boolean, list or mapping
 * @returns YAML in flow style
 *
 * @example flowText({ coil: { inductance: '1.8 uH' }, parallel: 24 }) // '{coil: {inductance: 1.8 uH}, parallel: 24}'
 */
export function flowText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(flowText).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return String(value);
  return `{${Object.entries(value)
    .map(([key, inner]) => `${key}: ${flowText(inner)}`)
    .join(', ')}}`;
}
