import type { StatedValue } from '../../project/stated-values.ts';
import { differ } from './resolution.ts';

/** A value of the project file that is not what it was. */
export interface InputChange {
  /** Keys from the root of the file; a load by its name after the change. */
  readonly name: string;
  readonly before?: StatedValue;
  readonly after?: StatedValue;
}

/** What two project files state differently. */
export interface InputChanges {
  /** Changed and new ones in the order of the file after the change, then those that are gone. */
  readonly changes: readonly InputChange[];
  /** Names of values that are written in another way and are the same. */
  readonly rewritten: readonly string[];
}

/**
 * What two project files state differently. Remarks, order and layout do not count.
 *
 * @param before  values of one file
 * @param after   of the other
 * @param loads   index of a load before by its index after
 */
export function inputChanges({
  before,
  after,
  loads,
}: {
  before: readonly StatedValue[];
  after: readonly StatedValue[];
  loads: ReadonlyMap<number, number>;
}): InputChanges {
  const known = new Map(before.map((value) => [identity(value, (index) => index), value]));
  const changes: InputChange[] = [];
  const rewritten: string[] = [];
  for (const value of after) {
    const id = identity(value, (index) => loads.get(index));
    const old = known.get(id);
    known.delete(id);
    if (old === undefined) changes.push({ name: value.name, after: value });
    else if (isOther(old, value)) changes.push({ name: value.name, before: old, after: value });
    else if (old.text !== value.text) rewritten.push(value.name);
  }
  return { changes: [...changes, ...[...known.values()].map((value) => ({ name: value.name, before: value }))], rewritten };
}

/** The same for two values of which one is the other's successor; a load goes by its index before the change. */
function identity({ name, load }: StatedValue, indexBefore: (index: number) => number | undefined): string {
  return load === undefined ? name : `loads ${indexBefore(load.index) ?? `new ${load.index}`} ${load.key}`;
}

function isOther(before: StatedValue, after: StatedValue): boolean {
  if (before.number !== undefined && after.number !== undefined) return differ(before.number, after.number);
  return before.text !== after.text;
}
