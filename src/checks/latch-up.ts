import { startRuns } from '../driver/settled-start.ts';
import type { Analysis } from '../driver/analysis.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { eventsInTime } from './events-in-time.ts';
import { latchErrorWords } from './hold-off-finding.ts';
import { ownRailWords } from './gentle-start.ts';
import { startsInTime } from './starts-in-time.ts';
import { bulkCharging, supplyAtStart, type Statement } from './supply-at-start.ts';
import type { CheckDocs, SubjectPart } from './check.ts';
import type { Verdict } from './judge.ts';
import type { Result } from './result.ts';

const docs: CheckDocs = {
  what: 'Sums up whether both switches could come to stay on: hold-off while running and at switch-on, growth of the oscillation, and whether the start can be computed at all.',
  why: 'With both switches on the supply stands across the chokes and the current rises until a fuse, the supply or a switch gives up.',
  formula:
    'fail: hold-off-running fails, the tank cannot ring, or in the time domain the start, a load put on or one taken away latches or stalls; not assessed: the start was not run or its outcome changes with the pair of switches, or the supply is past its limit, or folds back or switches off at a limit that an event comes within 8 % of; ' +
    `warn: a hold-off is past a threshold the part may have, or a dip of the supply to a half for 20 periods is not survived; pass: both hold-offs below the lowest threshold, and ${startRuns} of the start oscillate`,
  source: `own derivation for the hold-off while running: ${latchErrorWords}; the start by integrating the circuit: square-law switches, exponential diodes, Rosenbrock method`,
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
  /** The checks that it looks at. */
  sums: ['loaded-q', 'hold-off-running', 'supply-current', 'hold-off-at-switch-on', 'start-gain', 'start-gate-swing'] as readonly string[],
  /** Without remedy and place. */
  standing: (of: { analysis: Analysis; results: readonly Summed[] }): SummaryStanding => new SummaryStanding(summed(of)),
  run: ({ analysis, results }: { analysis: Analysis; results: readonly Result[] }): Result => {
    const { verdict, decisive } = summed({ analysis, results });
    const words = wordsOf(decisive);
    let remedy: { readonly words: string | undefined } | undefined;
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
        'hold-off while running in closed form; the start in the time domain, with a pair matched within 5 % of the threshold',
      ],
      // some take many runs of the time domain
      get remedy() {
        return (remedy ??= { words: verdict === 'pass' ? undefined : remedyOf(decisive) }).words;
      },
    };
  },
} as const satisfies { part: SubjectPart; docs: CheckDocs } & Record<string, unknown>;

/** How the summary stands. Its reason is made where it is asked: of many designs, of the first. */
class SummaryStanding {
  readonly id = 'latch-up';
  readonly value = null;
  readonly limit = null;
  readonly margin = null;
  readonly verdict: Verdict;
  readonly #decisive: readonly Statement[];

  constructor({ verdict, decisive }: { verdict: Verdict; decisive: readonly Statement[] }) {
    this.verdict = verdict;
    this.#decisive = decisive;
  }

  get reason(): string | undefined {
    return this.verdict === 'pass' ? undefined : wordsOf(this.#decisive).join('; ');
  }
}

/** Every statement has to be mended: their remedies, each once. */
function remedyOf(statements: readonly Statement[]): string | undefined {
  const found = new Set<string>();
  for (const { remedy } of statements) {
    const words = remedy?.();
    if (words !== undefined) found.add(words);
  }
  return found.size === 0 ? undefined : [...found].join('; and ');
}

/** What the summary needs of a check that it looks at. */
type Summed = Pick<Result, 'id' | 'verdict' | 'value' | 'limit' | 'case' | 'reason' | 'remedy'>;

function summed(input: { analysis: Analysis; results: readonly Summed[] }): {
  verdict: Verdict;
  decisive: readonly Statement[];
} {
  const statements = statementsOf(input);
  const verdict = (['fail', 'not assessed', 'warn', 'pass'] as const).find((rank) =>
    statements.some((statement) => statement.verdict === rank),
  )!;
  const decisive = statements.filter((statement) => statement.verdict === verdict);
  return { verdict, decisive };
}

function wordsOf(statements: readonly Statement[]): readonly string[] {
  return statements.map(({ words }) => words());
}

function statementsOf({ analysis, results }: { analysis: Analysis; results: readonly Summed[] }): readonly Statement[] {
  const result = (id: string): Summed | undefined => results.find((candidate) => candidate.id === id);
  return [
    ...ringing(result('loaded-q')),
    ...holdOffRunning(result('hold-off-running')),
    ...supplyLimit(result('supply-current')),
    ...(analysis.starts === undefined ? closedFormStart({ analysis, result }) : startsInTime({ analysis, starts: analysis.starts })),
    ...(analysis.starts === undefined ? [] : [...eventsInTime(analysis), ...peakOfStart(result('hold-off-at-switch-on'))]),
  ];
}

/** What the closed forms say of the start: signs, never a pass. */
function closedFormStart({ analysis, result }: { analysis: Analysis; result: (id: string) => Summed | undefined }): readonly Statement[] {
  return [
    { verdict: 'not assessed', words: () => 'the start was not run in the time domain' },
    ...startKnown(analysis),
    ...('unknown' in analysis.start ? [] : holdOffAtSwitchOn(result('hold-off-at-switch-on'))),
    ...supplyAtStart(analysis),
    ...bulkCharging(analysis),
    ...growth(result('start-gain')),
    ...growth(result('start-gate-swing')),
  ];
}

/** Where a start runs, a hold-off past the threshold for half an envelope period is a warning. */
function peakOfStart(result: Summed | undefined): readonly Statement[] {
  return holdOffAtSwitchOn(result).flatMap((statement): readonly Statement[] => {
    if (statement.verdict !== 'not assessed') return [statement];
    const isPast = result !== undefined && result.value !== null;
    return isPast
      ? [{ ...statement, verdict: 'warn', words: () => statement.words().replace(/, and the closed form.*/, '; it runs all the same') }]
      : [];
  });
}

function ringing(loadedQ: Summed | undefined): readonly Statement[] {
  if (loadedQ === undefined || loadedQ.value === null || loadedQ.value > 0.5) return [];
  return [
    {
      verdict: 'fail',
      words: () => `the tank cannot ring with ${loadedQ.case}: both switches stay on`,
      remedy: () => loadedQ.remedy,
    },
  ];
}

function holdOffRunning(result: Summed | undefined): readonly Statement[] {
  if (result === undefined) return [{ verdict: 'not assessed', words: () => 'hold-off while running is not known' }];
  const remedy = { remedy: (): string | undefined => result.remedy };
  const words: Record<Verdict, () => string> = {
    fail: () => `the off switch is not held off while running (${result.case})`,
    warn: () => `while running the off gate is past a threshold the part may have (${result.case})`,
    'not assessed': () => `hold-off while running: ${result.reason ?? 'not known'}`,
    pass: () => 'while running the off gate stays below the lowest threshold',
  };
  return [{ verdict: result.verdict, words: words[result.verdict], ...remedy }];
}

function startKnown(analysis: Analysis): readonly Statement[] {
  const { start } = analysis;
  if (!('unknown' in start)) return [];
  return [
    {
      verdict: 'not assessed',
      words: () => start.unknown,
      remedy: () => `${ownRailWords(analysis)}, or gates held low until the rail is up (gates.pullUp.hold: true)`,
    },
  ];
}

function holdOffAtSwitchOn(result: Summed | undefined): readonly Statement[] {
  if (result === undefined || result.verdict === 'not assessed')
    return [{ verdict: 'not assessed', words: () => `hold-off at switch-on: ${result?.reason ?? 'not known'}` }];
  if (result.verdict === 'pass') return [{ verdict: 'pass', words: () => 'at the choke-current peak of switch-on it still does' }];
  const remedy = { remedy: (): string | undefined => result.remedy };
  const peak = 'the choke-current peak at switch-on lifts the off gate past';
  if (result.value !== null && result.limit !== null && result.value <= result.limit) {
    return [{ verdict: 'warn', words: () => `${peak} a threshold the part may have (${result.case})`, ...remedy }];
  }
  return [
    {
      verdict: 'not assessed',
      words: () => `${peak} its typical threshold (${result.case}), and the closed form is too pessimistic there to decide`,
      ...remedy,
    },
  ];
}

/** Whether an oscillation grows out of the half-on state; its conditions are too rough to decide near their limits. */
function growth(result: Summed | undefined): readonly Statement[] {
  if (result === undefined) return [];
  const remedy = { remedy: (): string | undefined => result.remedy };
  if (result.verdict === 'not assessed')
    return [{ verdict: 'not assessed', words: () => `growth of the oscillation: ${result.reason ?? 'not known'}` }];
  const what = (): string => {
    const value = formatQuantity({ value: result.value ?? 0, dimension: 'count', digits: 2 });
    return result.id === 'start-gain' ? `loop gain ${value}` : `gates swing ${value} times what turns the pair over`;
  };
  if (result.verdict === 'pass') return [{ verdict: 'pass', words: () => `the oscillation grows: ${what()}` }];
  return [
    {
      verdict: result.verdict === 'fail' ? 'fail' : 'not assessed',
      words: () =>
        `the oscillation ${result.verdict === 'fail' ? 'does not' : 'may not'} grow out of the half-on state (${result.case}): ${what()}`,
      ...remedy,
    },
  ];
}

/** A supply at its limit gives way. */
function supplyLimit(result: Summed | undefined): readonly Statement[] {
  if (result?.verdict !== 'fail') return [];
  return [
    {
      verdict: 'not assessed',
      words: () => `the supply is past its limit (${result.case}): the rail sags and both switches may come on`,
      remedy: () => result.remedy,
    },
  ];
}
