import { chokeHeatOf } from '../driver/choke-heat.ts';
import { isKnown } from '../driver/known.ts';
import { assumedAmbient } from '../driver/ambient.ts';
import { currentShareFactor } from '../driver/bank-heat.ts';
import type { OperatingPoint, Running } from '../driver/operating-point.ts';
import { totalLoss } from '../driver/switch-heat.ts';
import { burnThreshold } from '../physics/hot-surface.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Kelvin } from '../units/si.ts';
import { defineCheck } from './check.ts';
import { notOscillating, subjects, unassessed } from './words.ts';

const path = 'environment.access';

/** Contact in s that is foreseen: trained people let go at once, the public may not. */
const contact = { trained: 1, public: 10 } as const;

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
    const missing = surfaces.flatMap(({ name, temperature }) => (isKnown(temperature) ? [] : [`${name}: ${temperature.unknown}`]));
    const hottest = known.reduce((a, b) => (b.temperature > a.temperature ? b : a), { name: 'air', temperature: 0 });
    const access = design.environment.access ?? 'public';
    return [
      {
        kind: 'measured',
        value: hottest.temperature,
        rating: burnThreshold({ contactTime: contact[access] }),
        ...(missing.length === 0 ? {} : { doubt: missing.join('; ') }),
        path,
        basis: () => [
          `hottest: ${hottest.name}; bare metal, ${contact[access]} s of contact, access: ${access}`,
          ...known.map(({ name, temperature }) => `${name} ${formatQuantity({ value: temperature, dimension: 'temperature' })}`),
        ],
        remedy: () => `a better cooled ${hottest.name}, or a guard over it; the work piece is hotter still in a heater; local codes decide`,
      },
    ];
  },
});

interface Surface {
  readonly name: string;
  readonly temperature: Kelvin | { readonly unknown: string };
}

function surfacesOf({ design, point, running }: { design: Design; point: OperatingPoint; running: Running }): readonly Surface[] {
  const ambient = design.environment.ambient ?? assumedAmbient;
  const { junction, losses, bankRise } = running;
  const { heatsink, parallel, mosfet } = design.switches;
  const loss = 'unknown' in junction || !junction.found || losses === 'latched' || 'unknown' in losses ? undefined : totalLoss(losses);
  const toSurface = heatsink ?? (mosfet.ratings.junctionToAmbient?.value ?? 0) / parallel;
  const choke = chokeHeatOf({ design, point, running });
  return [
    {
      name: heatsink === undefined ? 'switch' : 'heatsink',
      temperature: loss === undefined ? { unknown: 'loss of the switches is not known' } : ambient + loss * toSurface,
    },
    {
      name: 'capacitor',
      temperature: isKnown(bankRise) ? ambient + bankRise * currentShareFactor(design) ** 2 : bankRise,
    },
    { name: 'choke', temperature: 'unknown' in choke ? choke : (choke.temperature ?? { unknown: 'no steady temperature' }) },
    { name: 'coil', temperature: point.coil.temperature },
  ];
}
