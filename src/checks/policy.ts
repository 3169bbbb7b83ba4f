/** Where a verdict changes: a share of the part's rating, a quantity, or so much less than the rating. SI numbers. */
export type Level =
  | { readonly share: number; readonly quantity?: undefined; readonly less?: undefined }
  | { readonly quantity: number; readonly share?: undefined; readonly less?: undefined }
  | { readonly less: number; readonly share?: undefined; readonly quantity?: undefined };

/** How one check is judged, and why so. */
export interface Policy {
  readonly warn: Level;
  readonly fail: Level;
  /** Levels for parts of another kind. */
  readonly other?: { readonly warn: Level; readonly fail: Level };
  /** Whether the findings of the check have a rating that a level can be a share of. */
  readonly isRated: boolean;
  readonly reason: string;
  readonly source: string;
  /** Whose levels these are when they are not the tool's own: where the project sets them. */
  readonly overriddenAt?: string;
}

/** By check id. */
export type Policies = ReadonlyMap<string, Policy>;

/**
 * The number that a level stands for.
 *
 * @param level       share of a rating, quantity or rating less an amount
 * @param rating      in SI; needed by share and less
 * @param strictness  multiplies a quantity
 * Errors: RangeError where the level needs a rating and there is none.
 *
 * @example levelValue({ level: { share: 0.8 }, rating: 200, strictness: 1 }) // 160
 */
export function levelValue({ level, rating, strictness }: { level: Level; rating: number | undefined; strictness: number }): number {
  if (level.quantity !== undefined) return level.quantity * strictness;
  if (rating === undefined) throw new RangeError('this level is stated against a rating, and the finding has none');
  return level.share !== undefined ? level.share * rating : rating - level.less;
}
