/**
 * Volume of the box that a part fills, from its size in words.
 *
 * @param size  such as `26.5 x 11.5 x 20.5 mm`
 * @returns m³; undefined where the words are no three lengths in mm
 *
 * @example boxVolume('20 x 10 x 5 mm') // 0.000001
 */
export function boxVolume(size: string | undefined): number | undefined {
  const found = /^\s*([\d.]+)\s*[x×]\s*([\d.]+)\s*[x×]\s*([\d.]+)\s*mm\s*$/i.exec(size ?? '');
  if (found === null) return undefined;
  const volume = found.slice(1).reduce((product, length) => product * Number(length), 1e-9);
  return Number.isFinite(volume) && volume > 0 ? volume : undefined;
}
