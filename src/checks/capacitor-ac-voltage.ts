import { largestVoltageShare } from '../physics/capacitor.ts';
import { permissibleLoss, permissibleVoltage } from '../physics/derating.ts';
import { capacitorToleranceOf } from '../driver/capacitor-tolerance.ts';
import { isKnown } from '../driver/known.ts';
import { bankThermalResistance } from '../driver/bank-heat.ts';
import type { OperatingPoint, Running } from '../driver/operating-point.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck, type Finding } from './check.ts';
import { failingRise } from './rise-limit.ts';
import { lacking, measured, notOscillating, ratedBasis, subjects, unassessed } from './words.ts';

const path = 'tank.bank.part';

export default defineCheck({
  id: 'capacitor-ac-voltage',
  part: 'bank',
  title: 'effective voltage of one capacitor, against what it may carry at this frequency',
  since: '0.2.0',
  dimension: 'voltage',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the rms voltage of one capacitor with its permissible ac voltage at the running frequency.',
    why: 'The ac voltage that is printed on a film capacitor holds at mains frequency; from a few kilohertz up its own loss allows less, and further up its contacts.',
    formula: 'V = Vt·share/√2 against min(Vac, √(P/(2π·f·C·tanδ)), I_rated/(2π·f·C)), P = ΔT/R_th at the rise that fails',
    source: 'film-capacitor makers’ ac voltage curves; IEC 60384-17, from memory (check-values D-derate, D-ac-frequency)',
    remedy: 'more capacitors in series, a part of lower loss or higher ac voltage',
    rated: 'what it may carry at this frequency',
  },
  subject: subjects.capacitor,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { running } = point;
    if (running === undefined) return [unassessed({ ...notOscillating, path })];
    return [finding({ design, point, running })];
  },
});

function finding({ design, point, running }: { design: Design; point: OperatingPoint; running: Running }): Finding {
  const { capacitor, series } = design.tank.bank;
  const { voltageAc, currentRms } = capacitor.ratings;
  const resistance = point.tank.capacitorResistance;
  const thermal = bankThermalResistance(design);
  const rise = failingRise(capacitor);
  if (voltageAc === undefined) return lacking({ part: capacitor.name, key: 'voltageAc', path });
  if (!isKnown(resistance)) return unassessed({ unknown: resistance.unknown, path });
  if (!isKnown(thermal)) return unassessed({ unknown: thermal.unknown, path });
  if (rise === undefined) return lacking({ part: capacitor.name, key: 'maxRise or dielectric', path });
  const capacitance = point.tank.unitCapacitance;
  const { frequency } = running;
  const share = largestVoltageShare({ series, tolerance: capacitorToleranceOf(design) });
  const value = (running.tankPeak * share) / Math.SQRT2;
  const { voltage, limitedBy } = permissibleVoltage({
    ratedVoltage: voltageAc.value,
    loss: permissibleLoss({ rise, thermalResistance: thermal }),
    lossTangent: Math.max(1e-9, resistance * 2 * Math.PI * frequency * capacitance),
    ratedCurrent: currentRms?.value,
    capacitance,
    frequency,
  });
  return measured({
    value,
    rating: voltage,
    path,
    basis: () => {
      const because = {
        voltage: 'its rated ac voltage',
        loss: `its own loss at a rise of ${formatQuantity({ value: rise, dimension: 'temperatureRise' })}`,
        current: 'its rated current',
      };
      return [
        `at ${formatQuantity({ value: frequency, dimension: 'frequency' })} the limit is set by ${because[limitedBy]}`,
        ratedBasis({ what: 'ac voltage', rating: voltageAc, dimension: 'voltage' }),
      ];
    },
    remedy: ({ passingBank }) => passingBank(),
  });
}
