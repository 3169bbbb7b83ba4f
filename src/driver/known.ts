/** A number that could not be had, with the reason a person can act on. */
export interface Unknown {
  readonly unknown: string;
  /** Of the rating that its part does not give, where that is the reason. */
  readonly key?: string;
}

/** A number, or why there is none. Missing data travels through the engine as this and ends as `not assessed`. */
export type Maybe = number | Unknown;

/** A rating that its part does not give. */
export function lacks({ part, key }: { part: string; key: string }): Unknown {
  return { unknown: `${part} gives no ${key}`, key };
}

/** Whether a value is there. */
export function isKnown(value: Maybe): value is number {
  return typeof value === 'number';
}

/**
 * A formula over values that may be missing: the first missing one is the result.
 *
 * @param values   by name
 * @param formula  called with all of them when none is missing
 */
export function whenKnown<K extends string>(
  values: Readonly<Record<K, Maybe>>,
  formula: (known: Readonly<Record<K, number>>) => Maybe,
): Maybe {
  // a loop over names makes no list
  for (const name in values) if (!isKnown(values[name])) return values[name];
  return formula(values as Readonly<Record<K, number>>);
}
