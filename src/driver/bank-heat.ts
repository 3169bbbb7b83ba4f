import { capacitorLoss, selfHeating } from '../physics/capacitor.ts';
import type { Design } from '../project/design.ts';
import type { Ampere, Ratio } from '../units/si.ts';
import { capacitorToleranceOf } from './capacitor-tolerance.ts';
import { whenKnown, type Maybe } from './known.ts';
import type { Tank } from './tank.ts';

/** Current, loss and rise of one capacitor of the bank, equal sharing. */
export function bankStress({ design, tank, tankCurrentPeak }: { design: Design; tank: Tank; tankCurrentPeak: Ampere }): {
  currentPerCapacitor: Ampere;
  lossPerCapacitor: Maybe;
  bankRise: Maybe;
} {
  const { bank } = design.tank;
  const currentPerCapacitor = tankCurrentPeak / Math.SQRT2 / bank.parallel;
  const lossPerCapacitor = whenKnown({ esr: tank.capacitorResistance }, ({ esr }) =>
    capacitorLoss({ rmsCurrent: currentPerCapacitor, effectiveSeriesResistance: esr }),
  );
  const bankRise = whenKnown({ loss: lossPerCapacitor, thermal: bankThermalResistance(design) }, ({ loss, thermal }) =>
    selfHeating({ loss, thermalResistance: thermal }),
  );
  return { currentPerCapacitor, lossPerCapacitor, bankRise };
}

/** Case to ambient of one capacitor. With a fan and no figure for it the still-air one is used, which leans high. */
export function bankThermalResistance(design: Design): Maybe {
  const { capacitor, cooling } = design.tank.bank;
  const { stillAir, fan } = capacitor.thermalResistance ?? {};
  const rating = cooling === 'fan' ? (fan ?? stillAir) : stillAir;
  const air = cooling === 'fan' ? 'moving' : 'still';
  return rating?.value ?? { unknown: `${capacitor.name} gives no thermalResistance in ${air} air`, key: 'thermalResistance' };
}

/** How far above its equal share the current of one capacitor can be: the largest of a ± tolerance set. */
export function currentShareFactor(design: Design): Ratio {
  const { bank } = design.tank;
  return bank.parallel > 1 ? 1 + capacitorToleranceOf(design) : 1;
}
