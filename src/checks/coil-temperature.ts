import { waterRise } from '../driver/coil-heat.ts';
import { coilOf } from '../driver/coil.ts';
import { isKnown } from '../driver/known.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { measured, subjects, thickerWords, unassessed } from './words.ts';

const path = 'tank.coil';

export default defineCheck({
  id: 'coil-temperature',
  part: 'coil',
  title: 'temperature of the coil’s conductor, against what its insulation and joints stand',
  since: '0.2.0',
  dimension: 'temperature',
  sense: 'at-most',
  model: 'none',
  docs: {
    what: 'Finds the temperature at which the conductor loses into the air what its resistance, itself growing with temperature, turns into heat.',
    why: 'Enamel, solder joints and the former end here; a hot coil also has more resistance and a lower quality.',
    formula:
      'I²·R′(T) = free convection (Churchill & Chu) + ε·σ·(T⁴ − Ta⁴) per metre, half of the surface where turns face each other; I at the highest supply and lowest impedance',
    source:
      'Churchill & Chu 1975 (check-values I-churchill, I-tubetemp-*); resistance by Bessel functions (C-round-*, C-tube-*) with the bound for neighbouring turns',
    remedy: 'a thicker conductor, litz wire, more distance of the turns, or water',
  },
  subject: subjects.coil,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { coil } = design.tank;
    const { winding } = coilOf(design);
    const { temperature, settles, resistance, waterFlow } = point.coil;
    if (!isKnown(temperature)) return [unassessed({ unknown: temperature.unknown, path })];
    return [
      measured({
        value: temperature,
        path: 'tank.coil.conductor',
        basis: () => [
          `${formatQuantity({ value: resistance, dimension: 'resistance' })} ${coil.resistance === undefined ? 'at this temperature' : 'as measured; the larger of that and of the geometry heats it'}, at ${formatQuantity({ value: winding?.frequency ?? 0, dimension: 'frequency' })}, with leads and the upper bound of neighbouring turns`,
          ...(settles ? [] : ['it does not settle below this temperature']),
          waterFlow === undefined
            ? 'still air; a hot work piece in it or a closed box makes it hotter'
            : `water of ${formatQuantity({ value: waterFlow * 6e7, dimension: 'count', digits: 2 })} ml/min takes the heat at a rise of ${waterRise} K`,
        ],
        remedy: () =>
          winding?.geometry.cooling === 'water'
            ? 'cooler water'
            : `${thickerWords(winding?.geometry.conductor.shape)}, turns further apart${winding?.geometry.conductor.shape === 'tube' ? ', or water in the tube (tank.coil.cooling: water)' : ''}`,
      }),
    ];
  },
});
