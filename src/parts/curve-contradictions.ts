import type { Diagnostic } from '../source/diagnostic.ts';
import type { Quantities } from '../source/quantities.ts';
import { entryOf } from '../source/source-tree.ts';
import type { SourceNode } from '../source/source-tree.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { ratingsOverVoltage } from './part.ts';
import type { Mosfet, RatingOverVoltage, VoltageCurve } from './part.ts';
import { pointEntries } from './rating-of.ts';

/** By how much a later point may lie above an earlier one: what reading a printed curve is off by. */
const readingError = 0.05;

/** Frequencies or voltages that a mapping has none, or two equal ones, of. */
function formProblems(
  { key, node, axis }: { key: string; node: SourceNode | undefined; axis: { readonly one: string; readonly many: string } },
  quantities: Quantities,
): readonly Diagnostic[] {
  if (node?.kind !== 'map') return [];
  const entries = pointEntries(node);
  const single = entryOf(node, 'value');
  const form = { help: `write either one \`value\`, or a mapping of ${axis.one} to value`, at: single?.keyAt ?? node.at };
  if (single && entries.length > 0) return [{ id: 'contradiction', message: `\`${key}\` has both a \`value\` and ${axis.many}`, ...form }];
  if (!single && entries.length === 0) return [{ id: 'missing-key', message: `\`${key}\` has no value`, ...form }];
  return entries.flatMap((entry, index) => {
    const point = quantities.get(entry);
    const before = point === undefined ? undefined : entries.slice(0, index).find((other) => quantities.get(other) === point);
    if (!before) return [];
    const message = `\`${entry.key}\` and \`${before.key}\` are the same ${axis.one}`;
    return [{ id: `repeated-${axis.one.split(' ').at(-1)}`, message, help: 'keep one of them', at: entry.keyAt }];
  });
}

const pointWords = ({ voltage, rating }: VoltageCurve['points'][number]): string =>
  `${formatQuantity({ value: rating.value, dimension: 'capacitance' })} at ${formatQuantity({ value: voltage, dimension: 'voltage' })}`;

/** The first point that lies above one at a lower voltage. */
function riseProblem(key: RatingOverVoltage, curve: VoltageCurve | undefined): readonly Diagnostic[] {
  let [lowest] = curve?.points ?? [];
  for (const point of curve?.points ?? []) {
    if (point.rating.value > lowest!.rating.value * (1 + readingError)) {
      const message = `\`${key}\` rises from ${pointWords(lowest!)} to ${pointWords(point)}`;
      return [
        {
          id: 'contradiction',
          message,
          help: 'it falls as the drain voltage rises: correct one of the two points',
          at: point.rating.where,
        },
      ];
    }
    if (point.rating.value < lowest!.rating.value) lowest = point;
  }
  return [];
}

/** The first point of Crss above one of Coss at the same or a lower voltage: Coss, which falls, is then below Crss there. */
function partProblem({ overVoltage }: Mosfet): readonly Diagnostic[] {
  const output = overVoltage?.outputCapacitance?.points ?? [];
  for (const point of overVoltage?.reverseTransferCapacitance?.points ?? []) {
    const whole = output.findLast(({ voltage }) => voltage <= point.voltage);
    if (whole === undefined || point.rating.value <= whole.rating.value) continue;
    const message = `\`reverseTransferCapacitance\`, ${pointWords(point)}, is above \`outputCapacitance\`, ${pointWords(whole)}`;
    return [
      {
        id: 'contradiction',
        message,
        help: 'it is a part of it; swap the two if they were mixed up, or correct one',
        at: point.rating.where,
      },
    ];
  }
  return [];
}

/**
 * What is wrong with a loss tangent over frequency.
 *
 * @param node        under the key of a capacitor
 * @param quantities  numbers of its file
 * @returns `contradiction` for one value beside frequencies, `repeated-frequency`, or `missing-key` without a point
 */
export function lossTangentProblems(node: SourceNode, quantities: Quantities): readonly Diagnostic[] {
  const axis = { one: 'frequency', many: 'frequencies' };
  return formProblems({ key: 'lossTangent', node: entryOf(node, 'lossTangent')?.value, axis }, quantities);
}

/**
 * What is wrong with capacitances over drain voltage.
 *
 * @param mosfet      as far as it could be read
 * @param node        the mapping that it was read from
 * @param quantities  numbers of its file
 * @returns `contradiction` for one value beside voltages, a capacitance that rises, and Crss above Coss; `repeated-voltage`; `missing-key`
 *   without a point
 */
export function capacitanceProblems({
  mosfet,
  node,
  quantities,
}: {
  mosfet: Mosfet;
  node: SourceNode;
  quantities: Quantities;
}): readonly Diagnostic[] {
  const axis = { one: 'drain voltage', many: 'drain voltages' };
  const form = ratingsOverVoltage.flatMap((key) => formProblems({ key, node: entryOf(node, key)?.value, axis }, quantities));
  if (form.length > 0) return form;
  return [...ratingsOverVoltage.flatMap((key) => riseProblem(key, mosfet.overVoltage?.[key])), ...partProblem(mosfet)];
}
