import type { Design, ReadingKey } from '../../project/design.ts';
import type { Dimension } from '../../units/dimension.ts';
import type { Ratio } from '../../units/si.ts';

/** What is taken of a reading: half widths that hold in 95 of 100 cases. */
interface ReadingKind {
  readonly dimension: Dimension;
  /** Where the project gives no uncertainty; of a temperature in kelvin. */
  readonly uncertainty: number;
  /** How far the closed forms are off, a ratio: see DEVELOPERS.md; of a temperature a share of the rise. */
  readonly model: Ratio;
}

/** Uncertainty where none is given: common practice. Error of the model: as measured against the time domain, rounded up. */
export const readingKinds: Readonly<Record<ReadingKey, ReadingKind>> = {
  frequency: { dimension: 'frequency', uncertainty: 0.01, model: 0.01 },
  drainPeak: { dimension: 'voltage', uncertainty: 0.03, model: 0.01 },
  tankCurrentPeak: { dimension: 'current', uncertainty: 0.05, model: 0.01 },
  supplyCurrentIdle: { dimension: 'current', uncertainty: 0.02, model: 0.04 },
  supplyCurrentLoaded: { dimension: 'current', uncertainty: 0.02, model: 0.04 },
  gateHigh: { dimension: 'voltage', uncertainty: 0.03, model: 0.01 },
  capacitorTemperature: { dimension: 'temperature', uncertainty: 2, model: 0.3 },
  switchTemperature: { dimension: 'temperature', uncertainty: 2, model: 0.3 },
  coilTemperature: { dimension: 'temperature', uncertainty: 2, model: 0.3 },
};

/** Of a supply voltage that is measured, where no uncertainty is given: common practice. */
export const supplyUncertainty: Ratio = 0.01;

/** Half width of a 95 % interval over the standard deviation. */
export const coverage = 1.96;

/** A reading with its uncertainty, SI. */
export interface Observation {
  readonly key: ReadingKey;
  readonly value: number;
  /** Half width, 95 %, in the unit of the value. */
  readonly uncertainty: number;
  /** Whether the project states it. */
  readonly stated: boolean;
}

export const isTemperature = (key: ReadingKey): boolean => readingKinds[key].dimension === 'temperature';

/** The readings of a design in the order of the format. */
export function observationsOf({ readings }: Design): readonly Observation[] {
  return (Object.keys(readingKinds) as readonly ReadingKey[]).flatMap((key): readonly Observation[] => {
    const reading = readings[key];
    if (reading === undefined) return [];
    const usual = isTemperature(key) ? readingKinds[key].uncertainty : readingKinds[key].uncertainty * reading.value;
    return [{ key, value: reading.value, uncertainty: reading.uncertainty ?? usual, stated: reading.uncertainty !== undefined }];
  });
}
