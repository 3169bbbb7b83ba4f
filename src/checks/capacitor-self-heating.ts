import { isKnown } from '../driver/known.ts';
import { bankThermalResistance, currentShareFactor } from '../driver/bank-heat.ts';
import type { Capacitor } from '../parts/part.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck, type Measured } from './check.ts';
import { usualRise } from './rise-limit.ts';
import { lacking, measured, notOscillating, subjects, unassessed } from './words.ts';

export default defineCheck({
  id: 'capacitor-self-heating',
  part: 'bank',
  title: 'rise of a capacitor’s case by its own loss',
  since: '0.1.0',
  dimension: 'temperatureRise',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Computes the loss in the most loaded capacitor at the running frequency and the rise of its case above the air.',
    why: 'The voltage printed on a film capacitor is for dc or mains; at 100 kHz its own loss overheats it long before.',
    formula: 'P = I²·(tanδ(f)/(2π·f·C) + r_s), ΔT = P·R_th',
    source: 'IEC 60384-1 definitions; film-capacitor makers’ hot-spot calculation (check-values D-loss, D-loss-hotspot, D-thermal)',
    remedy: 'spread the same capacitance over more, smaller capacitors, take a part of lower loss, or move the air',
    rated: 'the part’s own maxRise',
    others: 'a dielectric that is not polypropylene',
    levels:
      'Polypropylene goes by these kelvins even where the part states a larger maxRise: the material has no margin for a hot spot above 85 °C. A maxRise below 10 K lowers both in proportion.',
  },
  subject: subjects.capacitor,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { bank } = design.tank;
    const { capacitor } = bank;
    const path = 'tank.bank.parallel';
    if (point.running === undefined) return [unassessed({ ...notOscillating, path })];
    const { bankRise, lossPerCapacitor, frequency } = point.running;
    if (point.tank.capacitorResistance === 0)
      return [unassessed({ unknown: `${capacitor.name} states a lossTangent of zero`, path: 'tank.bank.part' })];
    if (!isKnown(bankRise)) return [unassessed({ unknown: bankRise.unknown, path: 'tank.bank.part' })];
    const levels = levelsOf(capacitor);
    if (levels === undefined) return [lacking({ part: capacitor.name, key: 'maxRise or dielectric', path: 'tank.bank.part' })];
    const factor = currentShareFactor(design) ** 2;
    const value = bankRise * factor;
    const thermal = bankThermalResistance(design);
    return [
      measured({
        value,
        ...levels,
        path,
        basis: () => [
          ...(isKnown(lossPerCapacitor) && isKnown(thermal)
            ? [
                `${formatQuantity({ value: lossPerCapacitor * factor, dimension: 'power' })} in the most loaded capacitor × ${formatQuantity({ value: thermal, dimension: 'thermalResistance' })} in ${bank.cooling === 'fan' && capacitor.thermalResistance?.fan === undefined ? 'still air (no figure for a fan)' : bank.cooling}`,
              ]
            : []),
          ruleOf(capacitor),
          ...sourcesOf(capacitor),
          ...(point.tank.lossTangentInside
            ? []
            : [
                `${formatQuantity({ value: frequency, dimension: 'frequency' })} is outside the part's loss-tangent points; taken as growing with frequency`,
              ]),
        ],
        remedy: ({ passingBank }) => passingBank(),
      }),
    ];
  },
});

/** Polypropylene by the policy's own kelvins, stricter for a part that allows less; other dielectrics by the part's maxRise. */
function levelsOf(capacitor: Capacitor): Pick<Measured, 'rating' | 'other' | 'strictness'> | undefined {
  const maxRise = capacitor.ratings.maxRise?.value;
  if (capacitor.dielectric === 'polypropylene') {
    return { rating: maxRise ?? usualRise, strictness: Math.min(1, (maxRise ?? usualRise) / usualRise) };
  }
  return maxRise === undefined ? undefined : { rating: maxRise, other: true };
}

/** Which of the two rules the limit comes from, and why. */
function ruleOf({ dielectric, ratings: { maxRise } }: Capacitor): string {
  const rise =
    maxRise === undefined ? undefined : `${formatQuantity({ value: maxRise.value, dimension: 'temperatureRise' })} (${maxRise.source})`;
  if (dielectric !== 'polypropylene') return `limit from the part's own maxRise of ${rise ?? 'none'}`;
  if (maxRise === undefined) return 'limit of the policy for polypropylene; the part gives no maxRise of its own';
  return maxRise.value < usualRise
    ? `limit of the policy for polypropylene, lowered in proportion to the part's own maxRise of ${rise}`
    : `limit of the policy for polypropylene; the part's own maxRise of ${rise} does not lower it, as one below 10 K would`;
}

function sourcesOf(capacitor: Capacitor): readonly string[] {
  const sources = new Set(capacitor.lossTangent?.points.map(({ rating }) => rating.source));
  const thermal = capacitor.thermalResistance?.stillAir?.source;
  return [`loss tangent from ${[...sources].join(', ')}${thermal === undefined ? '' : `; thermal resistance from ${thermal}`}`];
}
