import { startRuns } from '../driver/settled-start.ts';
import { isKnown, type Maybe } from '../driver/known.ts';
import type { BringupCard } from '../studies/bringup/card.ts';
import type { AbortLimits, VoltageStep } from '../studies/bringup/steps.ts';
import { beyondCorners } from '../studies/bringup/steps.ts';
import type { PredictedReadings } from '../studies/predicted-readings.ts';
import type { Dimension } from '../units/dimension.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { Block } from './page.ts';

const text = (value: number, dimension: Dimension): string => formatQuantity({ value, dimension });
const cell = (value: Maybe | undefined, dimension: Dimension): string =>
  value !== undefined && isKnown(value) ? text(value, dimension) : 'not assessed';

/** The steps of the supply voltage: what to read, and where to switch off. */
export function stepBlocks(card: BringupCard): readonly Block[] {
  const taken = card.steps.filter(({ leftOut }) => leftOut === undefined);
  const left = card.steps.filter(({ leftOut }) => leftOut !== undefined);
  const heading: Block = { kind: 'heading', text: '5. Voltage steps: each without load first, a minute, then load on and off' };
  const reasons = [...new Set(left.map(({ leftOut: why = '' }) => why))];
  const leftOut = reasons.map((reason) => {
    const voltages = left.filter(({ leftOut: why }) => why === reason).map(({ voltage }) => text(voltage, 'voltage'));
    const gates =
      card.gates.onSupply && !card.gates.hold ? '; the gates hang on the supply and come up late or not at all at a low one' : '';
    return `Not at ${voltages.join(', ')}: the start without load is no sure one (${reason})${gates}.`;
  });
  if (taken.length === 0)
    return [
      heading,
      { kind: 'paragraph', text: 'No step: at none of the voltages the driver is sure to start. Settle the start first.' },
      { kind: 'list', items: leftOut },
    ];
  const { loads } = card;
  const columns = (first: string): readonly string[] => [
    first,
    ...taken.map(({ share, voltage }) => `${text(voltage, 'voltage')} (${Math.round(100 * share)} %)`),
  ];
  return [
    heading,
    {
      kind: 'table',
      caption: `Expected, nominal. Idle: ${loads.idle.name}. Loaded: ${loads.loaded?.name ?? 'no load in the project'}. Start: highest of ${startRuns}. Temperatures are steady ones, which a minute does not reach: an upper bound`,
      columns: columns('reading'),
      rows: expectedRows(taken),
    },
    {
      kind: 'table',
      caption: 'Switch off at once beyond',
      columns: columns('reading'),
      rows: abortRows(taken),
    },
    {
      kind: 'list',
      items: [
        ...leftOut,
        ...taken.flatMap(({ voltage, past }) =>
          past.length === 0
            ? []
            : [`At ${text(voltage, 'voltage')} the expected ${past.join(', ')} lies past its limit already: not before that is settled.`],
        ),
        `Limits: currents ${beyondCorners.idle} times (idle) and ${beyondCorners.loaded} times (loaded) the worst corner, no more than the set limit and what the chokes stand; frequency ${100 * beyondCorners.frequency} % outside the corners; drain ${beyondCorners.drain} times the worst corner, at start and load changes ${beyondCorners.surge} times the expected, no more than where switch-peak-voltage and switch-surge-voltage warn; the rest where the checks warn, from the ratings.`,
        `${loads.loaded === undefined ? '' : 'Put the load on and take it off at each step before the next. '}Write what you read under readings: in the project, then run tankproof readings.`,
      ],
    },
  ];
}

type Row = readonly [string, (step: VoltageStep) => string];

function rowsOf(rows: readonly Row[], steps: readonly VoltageStep[]): readonly (readonly string[])[] {
  return rows.map(([name, of]) => [name, ...steps.map(of)]);
}

function expectedRows(steps: readonly VoltageStep[]): readonly (readonly string[])[] {
  const both =
    (key: keyof PredictedReadings, dimension: Dimension) =>
    (step: VoltageStep): string =>
      step.loaded === undefined
        ? cell(step.idle[key], dimension)
        : `${cell(step.idle[key], dimension)} / ${cell(step.loaded[key], dimension)}`;
  const isLoaded = steps.some(({ loaded }) => loaded !== undefined);
  const pair = isLoaded ? ', idle / loaded' : '';
  const hot =
    (key: keyof PredictedReadings) =>
    (step: VoltageStep): string =>
      cell((step.loaded ?? step.idle)[key], 'temperature');
  const rows: readonly Row[] = [
    [`frequency${pair}`, both('frequency', 'frequency')],
    [
      `supply current${pair}`,
      ({ idle }) => cell(idle.supplyCurrentIdle, 'current') + (isLoaded ? ` / ${cell(idle.supplyCurrentLoaded, 'current')}` : ''),
    ],
    [`drain peak${pair}`, both('drainPeak', 'voltage')],
    [
      `drain peak at start${isLoaded ? ' / load on / off' : ''}`,
      ({ startPeak, insertionPeak, removalPeak }) =>
        isLoaded ? [startPeak, insertionPeak, removalPeak].map((value) => cell(value, 'voltage')).join(' / ') : cell(startPeak, 'voltage'),
    ],
    ['gate high', ({ idle }) => cell(idle.gateHigh, 'voltage')],
    [`capacitor${isLoaded ? ', loaded' : ''}`, hot('capacitorTemperature')],
    [`switch case${isLoaded ? ', loaded' : ''}`, hot('switchTemperature')],
    [`coil`, hot('coilTemperature')],
  ];
  return rowsOf(rows, steps);
}

function abortRows(steps: readonly VoltageStep[]): readonly (readonly string[])[] {
  const above =
    (key: keyof AbortLimits, dimension: Dimension) =>
    ({ abort }: VoltageStep): string => {
      const value = abort[key];
      return value === undefined || !Number.isFinite(value) ? 'not assessed' : text(value, dimension);
    };
  const isLoaded = steps.some(({ loaded }) => loaded !== undefined);
  const between =
    (low: keyof AbortLimits, high: keyof AbortLimits, dimension: Dimension) =>
    (step: VoltageStep): string =>
      `${above(low, dimension)(step)} to ${above(high, dimension)(step)}`;
  const rows: readonly Row[] = [
    ['frequency outside', between('frequencyBelow', 'frequencyAbove', 'frequency')],
    ['supply current idle above', above('idleAbove', 'current')],
    ...(isLoaded ? [['supply current loaded above', above('loadedAbove', 'current')] as const] : []),
    ['drain peak above, running', above('drainAbove', 'voltage')],
    ['drain peak above, start or load', above('surgeAbove', 'voltage')],
    ['gate high outside', between('gateBelow', 'gateAbove', 'voltage')],
    [
      'capacitor / switch case / coil above',
      (step) => (['capacitorAbove', 'switchAbove', 'coilAbove'] as const).map((key) => above(key, 'temperature')(step)).join(' / '),
    ],
  ];
  return rowsOf(rows, steps);
}
