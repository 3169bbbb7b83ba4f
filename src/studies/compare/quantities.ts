import type { Quantity } from '../../driver/quantities.ts';
import type { Dimension } from '../../units/dimension.ts';
import type { Ratio } from '../../units/si.ts';
import { differ } from './resolution.ts';

/** A nominal quantity with one load, before and after a change. */
export interface QuantityChange {
  readonly id: string;
  /** Name of the load, after the change where it is still there. */
  readonly case: string;
  readonly dimension: Dimension;
  readonly before?: Quantity;
  readonly after?: Quantity;
  /** after/before − 1; null where there are no two numbers, and for temperatures, whose zero is far away. */
  readonly by: Ratio | null;
}

/**
 * Quantities that a change moved, in the order of the list of quantities, load by load.
 *
 * @param before  quantities of one project
 * @param after   of the other
 * @param loads   name of a load before by its name after
 */
export function quantityChanges({
  before,
  after,
  loads,
}: {
  before: readonly Quantity[];
  after: readonly Quantity[];
  loads: ReadonlyMap<string, string>;
}): readonly QuantityChange[] {
  const old = new Map(before.map((quantity) => [identity(quantity.id, quantity.case), quantity]));
  const changes = after.flatMap((quantity): QuantityChange[] => {
    const loadBefore = loads.get(quantity.case);
    const id = loadBefore === undefined ? undefined : identity(quantity.id, loadBefore);
    const was = id === undefined ? undefined : old.get(id);
    if (id !== undefined) old.delete(id);
    if (was !== undefined && !differ(was.value, quantity.value)) return [];
    const { dimension } = quantity;
    return [{ id: quantity.id, case: quantity.case, dimension, after: quantity, ...withOld(was), by: ratioOf({ was, is: quantity }) }];
  });
  const gone = [...old.values()].map((was) => ({ id: was.id, case: was.case, dimension: was.dimension, before: was, by: null }));
  return [...changes, ...gone];
}

function identity(id: string, load: string): string {
  return `${id} ${load}`;
}

function withOld(was: Quantity | undefined): { readonly before?: Quantity } {
  return was === undefined ? {} : { before: was };
}

function ratioOf({ was, is }: { was: Quantity | undefined; is: Quantity }): Ratio | null {
  const [from, to] = [was?.value ?? null, is.value];
  if (from === null || to === null || from === 0 || is.dimension === 'temperature') return null;
  return to / from - 1;
}
