import { chokeHeatOf } from '../driver/choke-heat.ts';
import { isKnown, whenKnown, type Maybe, type Unknown } from '../driver/known.ts';
import { assumedAmbient } from '../driver/ambient.ts';
import { currentShareFactor } from '../driver/bank-heat.ts';
import type { OperatingPoint, Running } from '../driver/operating-point.ts';
import { totalLoss } from '../driver/switch-heat.ts';
import { burnThreshold } from '../physics/hot-surface.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { defineCheck } from './check.ts';
import { measured, notOscillating, subjects, unassessed } from './words.ts';

const path = 'environment.access';

/** Contact in s that is foreseen: trained people let go at once, the public may not. */
const contact = { trained: 1, public: 10 } as const;
const threshold = { trained: burnThreshold({ contactTime: contact.trained }), public: burnThreshold({ contactTime: contact.public }) };

export default defineCheck({
  id: 'hot-surface',
  part: 'people',
  title: 'hottest bare part while running, against the burn threshold of metal',
  since: '0.2.0',
  dimension: 'temperature',
  sense: 'at-most',
  model: 'running',
  docs: {
    what: 'Compares the hottest of heatsink, capacitor case, choke and coil with the temperature at which bare metal burns skin: within 10 s for the public, 1 s for trained people.',
    why: 'Heatsinks and coils stay hot long after switching off and do not look it.',
    formula: 'T = Ta + P·R_th of each part; 55 °C at 10 s, 65 °C at 1 s',
    source: 'ISO 13732-1:2006, from memory (check-values H-burn-iso); it does not replace an assessment of the product',
    remedy: 'more cooling, or a guard over what is hot; local codes and a licensed practitioner decide',
    rated: 'the burn threshold',
  },
  subject: subjects.tank,
  run: ({ analysis: { design }, instance: { point } }) => {
    const { running } = point;
    if (running === undefined) return [unassessed({ ...notOscillating, path })];
    const surfaces = surfacesOf({ design, point, running });
    const known = surfaces.flatMap(({ name, temperature }) => (isKnown(temperature) ? [{ name, temperature }] : []));
    const missing = surfaces.flatMap(({ name, temperature, ...where }) =>
      isKnown(temperature) ? [] : [{ name, ...temperature, ...where }],
    );
    const hottest = known.reduce((a, b) => (b.temperature > a.temperature ? b : a), { name: 'air', temperature: 0 });
    const access = design.environment.access ?? 'public';
    const rating = threshold[access];
    const [first] = missing;
    return [
      measured({
        value: hottest.temperature,
        rating,
        doubt: first === undefined ? undefined : missing.map(missingWords).join('; '),
        // where something is missing, a value past the limit is not: there it stands
        path: first === undefined || hottest.temperature > rating ? path : first.path,
        basis: () => [
          `${first === undefined ? 'hottest' : 'hottest of those known'}: ${hottest.name}; bare metal, ${contact[access]} s of contact, access: ${access}`,
          ...known.map(({ name, temperature }) => `${name} ${formatQuantity({ value: temperature, dimension: 'temperature' })}`),
        ],
        remedy: () => `a better cooled ${hottest.name}, or a guard over it; the work piece is hotter still in a heater; local codes decide`,
      }),
    ];
  },
});

/** A bare part. */
interface Surface {
  readonly name: string;
  readonly temperature: Maybe;
  /** Where a rating that it lacks is written, as a key and in words. */
  readonly path: string;
  readonly where: string;
}

function missingWords({ name, unknown, key, where }: { name: string; where: string } & Unknown): string {
  return `temperature of the ${name} not known: ${unknown}${key === undefined ? '' : `: write ${key} ${where}`}`;
}

function surfacesOf(of: { design: Design; point: OperatingPoint; running: Running }): readonly Surface[] {
  const { design, point, running } = of;
  const { bankRise } = running;
  const ambient = design.environment.ambient ?? assumedAmbient;
  const { heatsink } = design.switches;
  const choke = chokeHeatOf(of);
  return [
    {
      name: heatsink === undefined ? 'switch' : 'heatsink',
      temperature: whenKnown({ rise: switchRise(of) }, ({ rise }) => ambient + rise),
      path: 'switches.part',
      where: `in the part of switches${heatsink === undefined ? ', or a switches.heatsink' : ''}`,
    },
    {
      name: 'capacitor',
      temperature: whenKnown({ bankRise }, ({ bankRise: rise }) => ambient + rise * currentShareFactor(design) ** 2),
      path: 'tank.bank.part',
      where: 'in the part of tank.bank',
    },
    {
      name: 'choke',
      temperature: 'unknown' in choke ? choke : (choke.temperature ?? unsettled('choke-temperature')),
      path: 'chokes',
      where: 'under chokes, or in the part there',
    },
    // a coil that says too little says itself what to write
    { name: 'coil', temperature: point.coil.temperature, path: 'tank.coil', where: '' },
  ];
}

/** Of a heatsink over the air; without one, of the switch itself. */
function switchRise({ design: { switches }, running: { junction, losses } }: { design: Design; running: Running }): Maybe {
  if ('unknown' in junction) return junction;
  if (losses !== 'latched' && 'unknown' in losses) return losses;
  if (!junction.found || losses === 'latched') return unsettled('switch-temperature');
  const { heatsink, parallel, mosfet } = switches;
  return totalLoss(losses) * (heatsink ?? (mosfet.ratings.junctionToAmbient?.value ?? 0) / parallel);
}

function unsettled(check: string): Unknown {
  return { unknown: `it settles at none, see ${check}` };
}
