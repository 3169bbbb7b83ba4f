import { coilOf } from '../driver/coil.ts';
import { largestDistanceToLevel } from '../physics/exposure-distance.ts';
import { formerReferenceLevel, magneticReferenceLevel } from '../physics/magnetic-exposure.ts';
import { coaxialLoopsField, type CurrentLoop } from '../physics/magnetic-field.ts';
import type { Winding } from '../driver/coil-winding.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Ampere, Metre, Tesla } from '../units/si.ts';
import { defineCheck } from './check.ts';
import { measured, noMoreThan, notOscillating, subjects, unassessed } from './words.ts';

const path = 'environment.access';

/** Where the field is looked at: the distance at which household devices are measured. */
const lookedAt: Metre = 0.3;
const directions = 19;

export default defineCheck({
  id: 'magnetic-field',
  part: 'people',
  title: 'magnetic field at 30 cm from the coil, against the reference level of the people near it',
  since: '0.2.0',
  dimension: 'fluxDensity',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Computes the flux density of the coil at 30 cm from its middle, in the worst direction, and the distance beyond which the reference level is met.',
    why: 'The field of the circulating current reaches nerves, implants and metal; it does not stop at the coil.',
    formula: 'field of coaxial circles by complete elliptic integrals, rms; against the reference level at the running frequency',
    source:
      'ICNIRP 2010 and 2020, public or occupational (check-values H-icnirp2010, G-B-*, G-Boff-*); 30 cm as IEC 62233 measures, from memory; law may rest on the older, stricter levels. People with implants need other limits',
    remedy: 'distance, a shield, fewer ampere-turns; local codes and a licensed practitioner decide',
    rated: 'the reference level',
  },
  subject: subjects.coil,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { winding } = coilOf(design);
    const { running } = point;
    if (winding === undefined) {
      return [
        unassessed({
          unknown: 'the coil is given by measured values: write its shape, diameter, turns and conductor too',
          path: 'tank.coil',
        }),
      ];
    }
    if (running === undefined) return [unassessed({ ...notOscillating, path })];
    const access = design.environment.access ?? 'public';
    const exposure = access === 'public' ? 'public' : 'occupational';
    const { frequency } = running;
    if (frequency > 10e6) return [unassessed({ unknown: 'no reference level is known here above 10 MHz', path })];
    const level = magneticReferenceLevel({ exposure, frequency });
    const current = running.tankCurrentPeak / Math.SQRT2;
    const field = current * strongestPerAmpere(winding);
    return [
      measured({
        value: field,
        rating: level.fluxDensity,
        path,
        basis: () => {
          const loops = loopsOf({ winding, current });
          const { distance } = largestDistanceToLevel({ loops, fluxDensity: level.fluxDensity, directions });
          const former = formerReferenceLevel({ exposure, frequency });
          return [
            `${exposure} reference level against ${level.against} at ${formatQuantity({ value: frequency, dimension: 'frequency' })}, met from ${formatQuantity({ value: distance, dimension: 'length' })} on`,
            `the older guidelines, on which much law rests, have ${formatQuantity({ value: former, dimension: 'fluxDensity' })}; implants need other limits`,
          ];
        },
        remedy: ({ warnAt }) =>
          `people further away, a shield, or ${noMoreThan({ value: (warnAt / field) * current, dimension: 'current' })} or less in the coil; local codes decide`,
      }),
    ];
  },
});

function loopsOf({ winding: { turns }, current }: { winding: Winding; current: Ampere }): readonly CurrentLoop[] {
  const middle = turns.reduce((sum, { height }) => sum + height, 0) / turns.length;
  return turns.map(({ radius, height, share = 1 }) => ({ radius, position: height - middle, current: current * share }));
}

const known = new WeakMap<Winding, Tesla>();

/** The same at every corner but for the current: computed once for a winding. */
function strongestPerAmpere(winding: Winding): Tesla {
  const found = known.get(winding) ?? strongest({ loops: loopsOf({ winding, current: 1 }) });
  known.set(winding, found);
  return found;
}

/** Largest flux density on a sphere around the middle of the coil; a coil that reaches out of the sphere is looked at on its surface. */
function strongest({ loops }: { loops: readonly CurrentLoop[] }): Tesla {
  const reach = Math.max(lookedAt, ...loops.map(({ radius, position }) => 1.02 * Math.hypot(radius, position)));
  const fields = Array.from({ length: directions }, (_, i) => {
    const angle = (Math.PI * i) / (directions - 1) / 2;
    return coaxialLoopsField({ loops, radius: reach * Math.sin(angle), height: reach * Math.cos(angle) }).magnitude;
  });
  return Math.max(...fields);
}
