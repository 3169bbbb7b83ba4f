import { bundleEstimate, bundleTurns } from '../physics/bundle-inductance.ts';
import { internalFactor, tubeImpedance, wireImpedance } from '../physics/conductor-resistance.ts';
import { crowdingShare } from '../physics/crowding-share.ts';
import type { InductanceEstimate } from '../physics/inductance-estimate.ts';
import { leadsEstimate } from '../physics/lead-inductance.ts';
import { litzResistance } from '../physics/litz.ts';
import { loopEstimate } from '../physics/loop-inductance.ts';
import type { Turn } from '../physics/mutual-inductance.ts';
import { ownField, proximityRatio } from '../physics/proximity.ts';
import { emissivity } from '../physics/radiation.ts';
import { resistivityOf, type ConductorMaterial } from '../physics/resistivity.ts';
import { solenoidEstimate, solenoidTurns } from '../physics/solenoid-estimate.ts';
import { spiralEstimate, spiralTurns } from '../physics/spiral-inductance.ts';
import type { Coil, CoilGeometry } from '../project/design.ts';
import type { Farad, Henry, Hertz, Kelvin, Metre, Ohm, OhmMetre, OhmPerMetre, Ratio } from '../units/si.ts';
import { DesignError } from './design-error.ts';

/** A coil computed from its geometry. */
export interface Winding {
  readonly geometry: CoilGeometry;
  readonly inductance: Henry;
  readonly error: Ratio;
  readonly note?: string;
  /** Circles that stand for the turns. */
  readonly turns: readonly Turn[];
  /** Of the conductor in the coil, without leads. */
  readonly length: Metre;
  readonly frequency: Hertz;
  readonly emissivity: Ratio;
  /** One turn, which no other shades. */
  readonly isAlone: boolean;
  /** Of coil and leads: lower and upper bound of what neighbouring turns do. */
  readonly resistanceAt: (temperature: Kelvin) => { readonly least: Ohm; readonly most: Ohm };
  /** Of the conductor by itself, per metre. */
  readonly ownResistanceAt: (temperature: Kelvin) => OhmPerMetre;
  readonly resistivityAt: (temperature: Kelvin) => OhmMetre;
}

const cold: Kelvin = 293.15;

/**
 * Inductance and resistance of a coil from its geometry, at the frequency that it has with a bank.
 *
 * Errors: DesignError where the geometry is out of the range of every formula.
 */
export function windingOf({ geometry, measured, capacitance }: { geometry: CoilGeometry; measured: Coil; capacitance: Farad }): Winding {
  const { conductor, leads } = geometry;
  const material: ConductorMaterial = conductor.material;
  const radius = conductor.outerDiameter / 2;
  const wall = conductor.shape === 'tube' ? (conductor.wall ?? radius) : radius;
  const resistivityAt = (temperature: Kelvin): OhmMetre =>
    resistivityOf({ material, temperature: Math.min(600, Math.max(200, temperature)) });
  const impedanceAt = (frequency: Hertz, temperature: Kelvin): ReturnType<typeof wireImpedance> =>
    conductor.shape === 'tube' && wall < radius
      ? tubeImpedance({ outerRadius: radius, wall, resistivity: resistivityAt(temperature), frequency })
      : wireImpedance({ radius, resistivity: resistivityAt(temperature), frequency });
  // strands share the current evenly over the bundle
  const factors = (frequency: Hertz): { internalFactor: Ratio; crowdingShare: Ratio } =>
    conductor.shape === 'litz'
      ? { internalFactor: 1, crowdingShare: 0 }
      : {
          internalFactor: internalFactor({ internalInductance: impedanceAt(frequency, cold).internalInductance }),
          crowdingShare: crowdingShare({ outerRadius: radius, wall, resistivity: resistivityAt(cold), frequency }),
        };
  const at = (frequency: Hertz): { inductance: Henry; error: Ratio; note?: string } => {
    const coil = inside(shapeEstimate({ geometry, radius, ...factors(frequency) }), geometry);
    if (leads === undefined) return coil;
    const pair = inside(leadsEstimate({ ...leads, wireRadius: radius, internalFactor: factors(frequency).internalFactor }), geometry);
    const inductance = coil.inductance + pair.inductance;
    return { ...coil, inductance, error: (coil.error * coil.inductance + pair.error * pair.inductance) / inductance };
  };
  const frequencyOf = (inductance: Henry): Hertz => 1 / (2 * Math.PI * Math.sqrt(inductance * capacitance));
  const first = measured.inductance ?? at(100e3).inductance;
  const frequency = frequencyOf(measured.inductance ?? at(frequencyOf(first)).inductance);
  const { inductance, error, note } = at(frequency);
  const turns = turnsOf({ geometry });
  const length = turns.reduce((sum, turn) => sum + 2 * Math.PI * turn.radius * (turn.share ?? 1), 0);
  const whole = length + 2 * (leads?.length ?? 0);
  const isMeasured = measured.resistance !== undefined;
  const neighbours = neighboursOf({ geometry, radius, wall, resistivity: resistivityAt(cold), frequency, isMeasured });
  const ownResistanceAt = (temperature: Kelvin): OhmPerMetre => {
    if (conductor.shape !== 'litz') return impedanceAt(frequency, temperature).resistance;
    return litz({ geometry, externalField: 0, resistivity: resistivityAt(temperature), frequency });
  };
  const externalField = conductor.shape === 'litz' ? ownField({ turns, wireRadius: radius }) : 0;
  const resistanceAt = (temperature: Kelvin): { least: Ohm; most: Ohm } => {
    const own = ownResistanceAt(temperature);
    if (conductor.shape === 'litz') {
      const most = litz({ geometry, externalField, resistivity: resistivityAt(temperature), frequency });
      return { least: own * whole, most: litzTwist * (most * length + own * (whole - length)) };
    }
    return { least: own * whole, most: own * (neighbours * length + whole - length) };
  };
  const atTemperature = new Map<Kelvin, ReturnType<typeof resistanceAt>>();
  return {
    geometry,
    inductance,
    error,
    ...(note === undefined ? {} : { note }),
    turns,
    length,
    frequency,
    emissivity: conductor.emissivity ?? emissivity({ surface: conductor.shape === 'tube' ? 'bright copper' : 'enamelled' }),
    isAlone: turns.length === 1,
    // a search for the temperature asks the same ones again at every current
    resistanceAt: (temperature) => {
      const found = atTemperature.get(temperature) ?? resistanceAt(temperature);
      if (atTemperature.size < mostKept) atTemperature.set(temperature, found);
      return found;
    },
    ownResistanceAt,
    resistivityAt,
  };
}

/** Resistances that are kept: those of a few searches. */
const mostKept = 1000;

/** Length that the twist adds to the strands at most. */
const litzTwist = 1.1;

function inside(estimate: InductanceEstimate, { shape }: CoilGeometry): { inductance: Henry; error: Ratio; note?: string } {
  if ('inductance' in estimate) {
    const { inductance, error, validNote } = estimate;
    return { inductance, error, ...(validNote === undefined ? {} : { note: validNote }) };
  }
  throw new DesignError({
    id: 'outside-geometry',
    path: 'tank.coil',
    message: `no formula covers this ${shape}: ${estimate.outside}`,
    help: 'write inductance and resistance as measured in place of the shape',
  });
}

function shapeEstimate({
  geometry: { shape, diameter, turns, pitch = 0, bundleDiameter = 0 },
  radius: wireRadius,
  ...factors
}: {
  geometry: CoilGeometry;
  radius: Metre;
  internalFactor: Ratio;
  crowdingShare: Ratio;
}): InductanceEstimate {
  switch (shape) {
    case 'loop':
      return loopEstimate({ meanRadius: diameter / 2, wireRadius, ...factors });
    case 'solenoid':
      return solenoidEstimate({ meanDiameter: diameter, pitch, turns, wireRadius, ...factors });
    case 'spiral':
      return spiralEstimate({ innerRadius: innerRadiusOf({ diameter, pitch, turns }), pitch, turns, wireRadius, ...factors });
    case 'bundle':
      return bundleEstimate({ meanRadius: diameter / 2, bundleRadius: bundleDiameter / 2, turns, wireRadius, ...factors });
  }
}

/** Where a spiral begins, its conductor's axis ending at the outer diameter. */
export function innerRadiusOf({ diameter, pitch, turns }: { diameter: Metre; pitch: Metre; turns: number }): Metre {
  return diameter / 2 - turns * pitch;
}

function turnsOf({ geometry: { shape, diameter, turns, pitch = 0, bundleDiameter = 0 } }: { geometry: CoilGeometry }): readonly Turn[] {
  switch (shape) {
    case 'loop':
      return [{ radius: diameter / 2, height: 0 }];
    case 'solenoid':
      return solenoidTurns({ meanDiameter: diameter, pitch, turns, wireRadius: 0 });
    case 'spiral':
      return spiralTurns({ innerRadius: innerRadiusOf({ diameter, pitch, turns }), pitch, turns, wireRadius: 0 });
    case 'bundle':
      return bundleTurns({ meanRadius: diameter / 2, bundleRadius: bundleDiameter / 2, turns, wireRadius: 0 });
  }
}

/** Upper bound of what neighbouring turns add, a ratio. */
function neighboursOf({
  geometry,
  radius,
  wall,
  resistivity,
  frequency,
  isMeasured,
}: {
  geometry: CoilGeometry;
  radius: Metre;
  wall: Metre;
  resistivity: OhmMetre;
  frequency: Hertz;
  /** Whether a measured resistance stands beside the shape, which then is relied upon where no bound is known. */
  isMeasured: boolean;
}): Ratio {
  // a part turn has whole neighbours
  const turns = turnsOf({ geometry: { ...geometry, turns: Math.ceil(geometry.turns) } });
  if (geometry.conductor.shape === 'litz' || turns.length === 1) return 1;
  const ratio = proximityRatio({ turns, wireRadius: radius, wall, resistivity, frequency });
  if ('most' in ratio) return ratio.most;
  if (isMeasured) return 1;
  throw new DesignError({
    id: 'outside-geometry',
    path: 'tank.coil',
    message: `the resistance of this ${geometry.shape} cannot be bounded: ${ratio.outside}`,
    help: 'write its resistance as measured beside the shape (tank.coil.resistance)',
  });
}

function litz({
  geometry: { conductor, shape },
  externalField,
  resistivity,
  frequency,
}: {
  geometry: CoilGeometry;
  externalField: number;
  resistivity: OhmMetre;
  frequency: Hertz;
}): OhmPerMetre {
  const found = litzResistance({
    strandRadius: (conductor.strandDiameter ?? 0) / 2,
    strands: conductor.strands ?? 1,
    bundleRadius: conductor.outerDiameter / 2,
    externalField,
    resistivity,
    frequency,
  });
  if ('resistance' in found) return found.resistance;
  throw new DesignError({
    id: 'outside-geometry',
    path: 'tank.coil.conductor',
    message: `the resistance of this ${shape} cannot be computed: ${found.outside}`,
    help: 'thinner strands, or inductance and resistance as measured',
  });
}
