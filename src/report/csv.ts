/** A field of comma-separated values: commas, quotes and line ends put it in quotes. */
export function csvField(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A number with the digits that mean something; nothing where there is none. */
export function csvNumber(value: number | null | undefined): string {
  return value === null || value === undefined || !Number.isFinite(value) ? '' : String(Number(value.toPrecision(9)));
}
