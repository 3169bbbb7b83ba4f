import { touchVoltageLimit, type EnergySourceClass } from '../physics/touch-voltage.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { measured, notOscillating, subjects, unassessed } from './words.ts';

export default defineCheck({
  id: 'touch-voltage',
  part: 'people',
  title: 'tank voltage, against the touch-voltage class of the people near it',
  since: '0.1.0',
  dimension: 'voltage',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the effective voltage between the ends of the coil with the limit of energy source class 1 for the public, class 2 for trained people.',
    why: 'The coil carries π times the supply voltage at radio frequency; it burns deep and does not always startle.',
    formula: 'V = Vt/√2 against ES1 = 30 V + 0.4 V·f/kHz (to 70 V) or ES2 = 50 V + 0.9 V·f/kHz (to 140 V)',
    source:
      'IEC 62368-1:2014/2018 Table 4, from memory (check-values H-62368-*); it applies to sine voltages and does not replace an assessment of the product',
    remedy:
      'insulate and enclose the coil and everything tied to it, or lower the supply voltage; local codes and a licensed practitioner decide',
    rated: 'the limit of the class',
  },
  subject: subjects.tank,
  run: ({ analysis: { design }, instance: { point } }) => {
    const path = 'supply.voltage';
    const { running } = point;
    if (running === undefined) return [unassessed({ ...notOscillating, path })];
    const access = design.environment.access ?? 'public';
    const energyClass: EnergySourceClass = access === 'public' ? 'ES1' : 'ES2';
    const rating = touchVoltageLimit({ energyClass, frequency: running.frequency });
    return [
      measured({
        value: running.tankPeak / Math.SQRT2,
        rating,
        path,
        basis: () => [
          `${energyClass} of IEC 62368-1 at ${formatQuantity({ value: running.frequency, dimension: 'frequency' })}, access: ${access}${design.environment.access === undefined ? ' (assumed)' : ''}`,
          'between the ends of the coil, bare; surges at switch-on are higher',
        ],
        remedy: () =>
          'insulation or an enclosure over coil, bank and drains, stated by levels of your own (limits: touch-voltage), or a lower supply voltage; local codes decide',
      }),
    ];
  },
});
