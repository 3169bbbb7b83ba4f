import { chokeHeatOf } from '../driver/choke-heat.ts';
import type { Design } from '../project/design.ts';
import type { Hertz } from '../units/si.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { lacking, measured, notOscillating, ratedBasis, subjects, unassessed } from './words.ts';

const path = 'chokes';

export default defineCheck({
  id: 'choke-temperature',
  part: 'chokes',
  title: 'temperature of one choke while running, against the part’s limit',
  since: '0.2.0',
  dimension: 'temperature',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Computes copper loss with the resistance at temperature, core loss scaled from the stated point, and the temperature of winding and core.',
    why: 'Powder cores lose in the ripple, at 100 kHz often more than the copper; iron powder ages for good in hours of heat, some materials from 75 °C on: the part’s own maxTemperature rules, no general figure.',
    formula: 'T = Ta + R_th·(I_rms²·R(T) + P_core), I_rms² = I² + ΔI²/12, P_core = P0·(ΔI/ΔI0)^2.2·(f/f0)^1.2',
    source: 'copper coefficient of IEC 60028 (check-values C-iacs); core exponents of a class, from memory',
    remedy: 'a choke of lower resistance or core loss, a larger one, or moving air',
    rated: 'the part’s own maxTemperature',
  },
  subject: subjects.choke,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { choke } = design.chokes;
    const rating = choke.ratings.maxTemperature;
    const { running } = point;
    if (running === undefined) return [unassessed({ ...notOscillating, path })];
    if (rating === undefined) return [lacking({ part: choke.name, key: 'maxTemperature', path })];
    const heat = chokeHeatOf({ design, point, running });
    if ('unknown' in heat) return [unassessed({ unknown: `${heat.unknown}${lossForm({ design, frequency: running.frequency })}`, path })];
    const { copper, core, temperature } = heat;
    const remedy = (): string => 'a choke of lower resistance or core loss, or a larger one';
    if (temperature === undefined) {
      return [{ kind: 'hopeless', reason: 'the copper loss outgrows the cooling: no temperature is steady', path, remedy }];
    }
    const watt = (value: number): string => formatQuantity({ value, dimension: 'power', digits: 2 });
    return [
      measured({
        value: temperature,
        rating: rating.value,
        path,
        basis: () => [
          `copper ${watt(copper)}, core ${watt(core)} (scaled with ripple and frequency, exponents of a class)`,
          ratedBasis({ what: 'limit', rating, dimension: 'temperature' }),
        ],
        remedy,
      }),
    ];
  },
});

/** How a core loss that states no conditions is written in full; the numbers are this driver's, for want of those it was measured at. */
function lossForm({ design, frequency }: { design: Design; frequency: Hertz }): string {
  const stated = design.chokes.choke.ratings.coreLoss;
  if (stated === undefined || stated.value === 0 || stated.at !== undefined) return '';
  const [loss, voltage, at] = [
    formatQuantity({ value: stated.value, dimension: 'power' }),
    formatQuantity({ value: design.supply.voltage, dimension: 'voltage' }),
    formatQuantity({ value: frequency, dimension: 'frequency' }),
  ];
  return `: write coreLoss: {value: ${loss}, at: {supplyVoltage: ${voltage}, frequency: ${at}}} with the two that it was measured at, by two chokes`;
}
