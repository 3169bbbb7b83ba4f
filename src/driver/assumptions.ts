import { ratingsOverVoltage } from '../parts/part.ts';
import type { Mosfet, Rating } from '../parts/part.ts';
import type { Design } from '../project/design.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Analysis } from './analysis.ts';
import { coilOf } from './coil.ts';
import { classCapacitorTolerance } from './capacitor-tolerance.ts';
import { railFeedOf, railPeakRatio } from './rail.ts';
import { classOnResistanceFactor, classThresholdDrift } from './switch-model.ts';

/** What was taken for granted to compute this design, one statement each. */
export function assumptionsOf({ design, start }: Analysis): readonly string[] {
  return [...missing(design), ...ofCoil(design), ...ofSwitches(design), ...ofStart({ design, start }), ...ofModel(design)];
}

function missing({ supply, tank, chokes, environment, loads }: Design): readonly string[] {
  const absent = (value: unknown, statement: string): readonly string[] => (value === undefined ? [statement] : []);
  return [
    ...absent(supply.tolerance, 'supply.tolerance not given: taken as 0'),
    ...absent(supply.resistance, 'supply.resistance not given: taken as 0, which leans high on voltage and current'),
    ...absent(tank.coil.tolerance, 'tank.coil.tolerance not given: taken as 0'),
    ...absent(
      tank.bank.capacitor.ratings.tolerance,
      `${tank.bank.capacitor.name} gives no tolerance: ±${classCapacitorTolerance * 100} % (class)`,
    ),
    ...absent(chokes.choke.ratings.resistance, `${chokes.choke.name} gives no resistance: taken as 0`),
    ...absent(tank.bank.capacitor.lossTangent, `${tank.bank.capacitor.name} gives no lossTangent: its loss is left out of the tank's Q`),
    ...absent(environment.ambient, 'environment.ambient not given: taken as 25 °C'),
    ...absent(environment.access, 'environment.access not given: taken as public'),
    ...(loads.some(({ frequencyShift }) => frequencyShift !== undefined)
      ? ['a load’s frequencyShift is taken as a change of the coil’s inductance']
      : []),
  ];
}

/** Beyond the error of its formula: dimensions are seldom known better. */
const farOff = 0.1;

/** A measured inductance far from that of the geometry beside it. */
function ofCoil(design: Design): readonly string[] {
  const { inductance, tolerance } = design.tank.coil;
  const { winding, tolerance: range } = coilOf(design);
  if (winding === undefined) return [];
  const percent = (value: number): string => formatQuantity({ value, dimension: 'ratio', digits: 3 });
  if (inductance === undefined)
    return [
      `coil ±${percent(range)}: ${tolerance === undefined ? '' : `±${percent(tolerance)} that tank.coil.tolerance states, and `}±${percent(winding.error)} that the formula for the inductance of this shape may be off`,
    ];
  const ratio = inductance / winding.inductance;
  if (Math.abs(ratio - 1) <= winding.error + farOff) return [];
  return [
    `the measured inductance is ${ratio.toPrecision(3)} times that of the geometry: one of them may be wrong; the measured one is used`,
  ];
}

function ofSwitches({ switches: { mosfet }, gates }: Design): readonly string[] {
  const { onResistanceFactor, thresholdDrift, thresholdTypical, transconductance, inputCapacitance } = mosfet.ratings;
  return [
    ...(onResistanceFactor === undefined
      ? [`${mosfet.name} gives no onResistanceFactor: ${classOnResistanceFactor} at 150 °C (class)`]
      : []),
    ...(thresholdDrift === undefined ? [`threshold falls by ${-classThresholdDrift * 1000} mV/K (class)`] : []),
    ...(thresholdTypical === undefined ? ['typical threshold is the mean of minimum and maximum (derived)'] : []),
    ...(transconductance === undefined
      ? ['channel constant from R_DS(on), since the part gives no transconductance']
      : transconductance.at?.['drainCurrent'] === undefined
        ? ['transconductance taken as stated at the drain current of R_DS(on)']
        : []),
    ...(inputCapacitance === undefined ? [] : ['gate capacitance at zero drain voltage is twice the catalogue figure (class)']),
    ...ofCapacitances(mosfet),
    ...(gates.crossDiode.ratings.forwardVoltage === undefined ? [] : ['cross-diode drop follows 46 mV·ln(I) of a 1 A rectifier (class)']),
  ];
}

/** How capacitances that the part gives over drain voltage are taken. */
function ofCapacitances({ name, overVoltage }: Mosfet): readonly string[] {
  const given = ratingsOverVoltage.filter((key) => overVoltage?.[key] !== undefined);
  if (given.length === 0) return [];
  const constant = ratingsOverVoltage.filter((key) => !given.includes(key));
  return [
    `${name}: ${given.join(' and ')} in the time domain as a junction's from point to point, constant outside them`,
    ...constant.map((key) => `${name} gives ${key} at one drain voltage at most: taken as constant`),
  ];
}

function ofStart({ design, start }: Pick<Analysis, 'design' | 'start'>): readonly string[] {
  const { bulkCapacitance, leadInductance } = design.supply;
  const overshoot = railPeakRatio(design);
  const unfed =
    bulkCapacitance === undefined || leadInductance === undefined
      ? 'supply.bulkCapacitance and leadInductance not both given: the rail is taken not to ring when it is switched on'
      : undefined;
  return [
    ...('unknown' in start ? [] : [`start: ${start.why}`]),
    ...(unfed !== undefined && (design.supply.riseTime ?? 0) === 0 ? [unfed] : []),
    ...(overshoot > 1.005
      ? [`leads and bulk capacitor ring: the rail goes up to ${overshoot.toPrecision(3)} times its voltage when it is switched on`]
      : []),
    ...(bulkCapacitance !== undefined && railFeedOf(design) === undefined
      ? ['supply.resistance and leadInductance are zero: the bulk capacitor changes nothing']
      : []),
  ];
}

function ofModel(design: Design): readonly string[] {
  return [
    'equal leads to every capacitor; no stray inductance between drains and bank, whose ringing adds to every drain peak',
    'the supply or its bulk capacitor takes back current at load removal',
    'the start is run with a pair of switches whose thresholds are 0.5 % to 5 % apart; an unmatched pair may differ by more',
    ...(design.chokes.arrangement === 'centre-tap'
      ? ['switch-on and load removal with one choke into the centre tap were not compared with a time-domain model']
      : []),
    ...Object.keys(design.limits).map((id) => {
      const { path, line } = design.locate(`limits.${id}`);
      return `the levels of ${id} are the project's own (${path}:${line}), not the default policy`;
    }),
    ...(design.switches.parallel > 1 ? ['parallel switches share current equally and hang on one pull-up'] : []),
  ];
}

/** A rating that the result rests on, with the part that gives it. */
export interface UsedRating {
  readonly part: string;
  readonly key: string;
  readonly rating: Rating;
}

/** Every rating of the design's parts that the closed forms or the checks use. */
export function ratingsUsed({ switches, gates, tank, chokes }: Design): readonly UsedRating[] {
  const { capacitor } = tank.bank;
  const rows = [
    pick(switches.mosfet, [
      'drainVoltage',
      'onResistance',
      'onResistanceFactor',
      'thresholdMin',
      'thresholdMax',
      'thresholdTypical',
      'thresholdDrift',
      'transconductance',
      'gateVoltage',
      'drainCurrent',
      'outputCapacitance',
      'reverseTransferCapacitance',
      'inputCapacitance',
      'gateCharge',
      'junctionTemperature',
      ...(switches.heatsink === undefined ? ['junctionToAmbient'] : ['junctionToCase', 'caseToSink']),
      'avalancheEnergy',
    ]).flatMap((used) => pointsOf(switches.mosfet, used)),
    pick(gates.crossDiode, ['reverseVoltage', 'forwardVoltage', 'recoveryTime', 'averageCurrent']),
    gates.clamp === undefined
      ? []
      : pick(gates.clamp, ['zenerVoltage', 'tolerance', 'power', 'impedance', 'testCurrent', 'junctionToAmbient', 'junctionTemperature']),
    pick(capacitor, [
      'capacitance',
      'tolerance',
      'voltageDc',
      'voltageAc',
      'currentRms',
      'seriesResistance',
      'maxRise',
      'maxTemperature',
      'voltageSlope',
    ]),
    (capacitor.lossTangent?.points ?? []).map(({ rating }) => ({ part: capacitor.name, key: 'lossTangent', rating })),
    capacitor.thermalResistance?.stillAir === undefined
      ? []
      : [{ part: capacitor.name, key: 'thermalResistance', rating: capacitor.thermalResistance.stillAir }],
    pick(chokes.choke, ['inductance', 'resistance', 'saturationCurrent', 'tolerance', 'coreLoss', 'thermalResistance', 'maxTemperature']),
  ];
  return rows.flat();
}

/** A rating, or its points where the part gives it over drain voltage. */
function pointsOf({ overVoltage }: Mosfet, used: UsedRating): readonly UsedRating[] {
  const key = ratingsOverVoltage.find((one) => one === used.key);
  const points = key && overVoltage?.[key]?.points;
  return points?.map(({ voltage, rating }) => ({ ...used, rating: { ...rating, at: { ...rating.at, drainVoltage: voltage } } })) ?? [used];
}

function pick(
  { name, ratings }: { name: string; ratings: Readonly<Record<string, Rating | undefined>> },
  keys: readonly string[],
): readonly UsedRating[] {
  return keys.flatMap((key) => {
    const rating = ratings[key];
    return rating === undefined ? [] : [{ part: name, key, rating }];
  });
}
