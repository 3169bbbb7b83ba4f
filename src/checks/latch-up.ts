import type { Analysis } from '../driver/analysis.ts';
import { isKnown } from '../driver/known.ts';
import { startConditions } from '../driver/start-conditions.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { riseAtDriver } from '../driver/rail.ts';
import { ownRailWords } from './gentle-start.ts';
import { noLessThan } from './words.ts';
import type { CheckDocs, SubjectPart } from './check.ts';
import type { Verdict } from './judge.ts';
import type { Result } from './result.ts';

/** Growth out of the half-on state is not compared with the time domain: both ratios must exceed 1 by this factor for a pass. */
const startFactor = 2;

/** What the summary rests on. */
interface Statement {
  readonly verdict: Verdict;
  readonly words: string;
  readonly remedy?: string;
}

const docs: CheckDocs = {
  what: 'Sums up whether both switches could come to stay on: hold-off while running and at switch-on, growth of the oscillation, and whether the start can be computed at all.',
  why: 'With both switches on the supply stands across the chokes and the current rises until a fuse, the supply or a switch gives up.',
  formula:
    'fail: hold-off-running fails or the tank cannot ring; not assessed: the start is unknown, or the hold-off at the switch-on peak is past the typical threshold; warn: past the minimum threshold; ' +
    'pass: both hold-offs below the minimum threshold, gm·R/2 and the gate swing over I/gm above 2',
  source:
    'own derivation; the closed form decides a latch while running within −16 … +7 % and cannot decide what happens in the first microseconds',
  remedy:
    'a switch of lower on-resistance or higher threshold, gates on their own rail with a slowly rising supply, less load at the start',
};

/** The summary over the oscillation checks. It has no number of its own. */
export const latchUp = {
  id: 'latch-up',
  part: 'oscillation',
  title: 'can both switches come to stay on?',
  since: '0.1.0',
  dimension: 'ratio',
  sense: 'at-most',
  docs,
  run: ({ analysis, results }: { analysis: Analysis; results: readonly Result[] }): Result => {
    const statements = statementsOf({ analysis, results });
    const verdict = (['fail', 'not assessed', 'warn', 'pass'] as const).find((rank) =>
      statements.some((statement) => statement.verdict === rank),
    )!;
    const decisive = statements.filter((statement) => statement.verdict === verdict);
    const words = decisive.map((statement) => statement.words);
    const remedies = [...new Set(decisive.flatMap(({ remedy }) => remedy ?? []))];
    return {
      id: 'latch-up',
      part: 'oscillation',
      title: 'can both switches come to stay on?',
      subject: 'switch pair',
      case: 'all loads and corners',
      verdict,
      value: null,
      limit: null,
      warnAt: null,
      dimension: 'ratio',
      sense: 'at-most',
      margin: null,
      ...(verdict === 'pass' ? {} : { reason: words.join('; ') }),
      at: analysis.design.locate('gates'),
      basis: [
        ...(verdict === 'pass' ? words : []),
        'decided in closed form: hold-off while running and at the switch-on peak; not decided: the first microseconds with both gates rising',
      ],
      ...(remedies.length > 0 && verdict !== 'pass' ? { remedy: remedies.join('; or ') } : {}),
    };
  },
} as const satisfies { part: SubjectPart; docs: CheckDocs } & Record<string, unknown>;

function statementsOf({ analysis, results }: { analysis: Analysis; results: readonly Result[] }): readonly Statement[] {
  const result = (id: string): Result | undefined => results.find((candidate) => candidate.id === id);
  return [
    ...ringing(result('loaded-q')),
    ...holdOffRunning(result('hold-off-running')),
    ...startKnown(analysis),
    ...('unknown' in analysis.start ? [] : holdOffAtSwitchOn(result('hold-off-at-switch-on'))),
    ...supplyAtStart(analysis),
    ...bulkCharging(analysis),
    growth(analysis),
  ];
}

function ringing(loadedQ: Result | undefined): readonly Statement[] {
  if (loadedQ === undefined || loadedQ.value === null || loadedQ.value > 0.5) return [];
  return [
    {
      verdict: 'fail',
      words: `the tank cannot ring with ${loadedQ.case}: both switches stay on`,
      ...(loadedQ.remedy === undefined ? {} : { remedy: loadedQ.remedy }),
    },
  ];
}

function holdOffRunning(result: Result | undefined): readonly Statement[] {
  if (result === undefined) return [{ verdict: 'not assessed', words: 'hold-off while running is not known' }];
  const remedy = result.remedy === undefined ? {} : { remedy: result.remedy };
  const words: Record<Verdict, string> = {
    fail: `the off switch is not held off while running (${result.case})`,
    warn: `while running the off gate is past a threshold the part may have (${result.case})`,
    'not assessed': `hold-off while running: ${result.reason ?? 'not known'}`,
    pass: 'while running the off gate stays below the lowest threshold',
  };
  return [{ verdict: result.verdict, words: words[result.verdict], ...remedy }];
}

function startKnown(analysis: Analysis): readonly Statement[] {
  const { start } = analysis;
  if (!('unknown' in start)) return [];
  return [
    {
      verdict: 'not assessed',
      words: start.unknown,
      remedy: `${ownRailWords(analysis)}, or gates held low until the rail is up (gates.pullUp.hold: true)`,
    },
  ];
}

function holdOffAtSwitchOn(result: Result | undefined): readonly Statement[] {
  if (result === undefined || result.verdict === 'not assessed')
    return [{ verdict: 'not assessed', words: `hold-off at switch-on: ${result?.reason ?? 'not known'}` }];
  if (result.verdict === 'pass') return [{ verdict: 'pass', words: 'at the choke-current peak of switch-on it still does' }];
  const remedy = result.remedy === undefined ? {} : { remedy: result.remedy };
  const peak = 'the choke-current peak at switch-on lifts the off gate past';
  if (result.value !== null && result.limit !== null && result.value <= result.limit) {
    return [{ verdict: 'warn', words: `${peak} a threshold the part may have (${result.case})`, ...remedy }];
  }
  return [
    {
      verdict: 'not assessed',
      words: `${peak} its typical threshold (${result.case}), and the closed form is too pessimistic there to decide`,
      ...remedy,
    },
  ];
}

/** Share of the rail that a bulk capacitor may lose while it carries the peak of a start. */
const bulkDip = 0.1;

/** A start that needs more than the supply gives pulls the rail down, and a sagging rail brings both switches on. */
function supplyAtStart({ design, corners }: Analysis): readonly Statement[] {
  const { currentLimit, bulkCapacitance, voltage } = design.supply;
  const peaks = corners.flatMap(({ switchOn, point }) =>
    switchOn === undefined || 'unknown' in switchOn ? [] : [{ peak: switchOn.supplyPeak, point }],
  );
  if (currentLimit === undefined || peaks.length === 0) return [];
  const worst = peaks.reduce((a, b) => (b.peak > a.peak ? b : a));
  const excess = worst.peak - currentLimit.current;
  if (excess <= 0) return [];
  const chokes = design.chokes.arrangement === 'two' ? 2 : 1;
  const half = Math.PI ** 2 * Math.sqrt((worst.point.tank.chokeInductance / chokes) * worst.point.tank.capacitance);
  const dip = bulkCapacitance === undefined ? Infinity : (excess * half) / bulkCapacitance;
  if (dip <= bulkDip * voltage) return [];
  const peak = formatQuantity({ value: worst.peak, dimension: 'current' });
  const bulk = noLessThan({ value: (excess * half) / (bulkDip * voltage), dimension: 'capacitance', digits: 2 });
  return [
    {
      verdict: 'not assessed',
      words: `the start takes up to ${peak}, the supply gives ${formatQuantity({ value: currentLimit.current, dimension: 'current' })}: the rail may sag and both switches come on`,
      remedy: `${bulk} or more at the driver (supply.bulkCapacitance), or a stronger supply`,
    },
  ];
}

/** A bulk capacitor that takes more than the supply gives makes the rail rise more slowly than the project says, or not at all. */
function bulkCharging({ design, corners }: Analysis): readonly Statement[] {
  const { currentLimit, bulkCapacitance, riseTime, voltage, tolerance = 0 } = design.supply;
  if (currentLimit === undefined || bulkCapacitance === undefined) return [];
  // gates released on a rail that is up do not mind how long it took
  if (design.gates.pullUp.hold && currentLimit.kind === 'constant') return [];
  const rise = riseAtDriver(design);
  const running = Math.max(...corners.map(({ point }) => point.running?.supplyCurrent ?? 0));
  const charge = bulkCapacitance * voltage * (1 + tolerance);
  if (rise > 0 && charge / rise + running <= currentLimit.current) return [];
  const ampere = (value: number): string => formatQuantity({ value, dimension: 'current' });
  const room = currentLimit.current - running;
  const wanted = noLessThan({ value: charge / room, dimension: 'time', digits: 2 });
  const takes = rise > 0 ? `${ampere(charge / rise)} for ${formatQuantity({ value: rise, dimension: 'time' })}` : 'a current without bound';
  return [
    {
      verdict: 'not assessed',
      words: `charging the bulk capacitor takes ${takes}, the supply gives ${ampere(currentLimit.current)}: the rail rises otherwise than stated${currentLimit.kind === 'constant' ? '' : ', or never'}`,
      remedy:
        room > 0
          ? `a supply that rises in ${wanted} or more (supply.riseTime${riseTime === undefined ? ', not given' : ''})`
          : 'a stronger supply',
    },
  ];
}

/** The weakest growth over all loads and corners. */
function growth({ design, corners }: Analysis): Statement {
  let [gain, swing] = [Infinity, Infinity];
  for (const { point } of corners) {
    const conditions = startConditions({ design, point });
    if (!isKnown(conditions.gain)) return { verdict: 'not assessed', words: `growth of the oscillation: ${conditions.gain.unknown}` };
    if (!isKnown(conditions.swing)) return { verdict: 'not assessed', words: `growth of the oscillation: ${conditions.swing.unknown}` };
    gain = Math.min(gain, conditions.gain);
    swing = Math.min(swing, conditions.swing);
  }
  const times = (value: number): string => formatQuantity({ value, dimension: 'count', digits: 2 });
  const numbers = `loop gain ${times(gain)}, gate swing ${times(swing)} times what turns the pair over`;
  if (gain > startFactor && swing > startFactor) return { verdict: 'pass', words: `the oscillation grows: ${numbers}` };
  return {
    verdict: 'not assessed',
    words: `the oscillation may not grow out of the half-on state: ${numbers}`,
    remedy: 'a smaller pull-up, a higher gate rail, or a lighter load at the start',
  };
}
