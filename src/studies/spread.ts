import { verdicts, type Verdict } from '../checks/judge.ts';
import type { Policies } from '../checks/policy.ts';
import type { Result } from '../checks/result.ts';
import { standingsOf, type Standing } from '../checks/review.ts';
import { type Analysis, judgedCase } from '../driver/analysis.ts';
import { hottestCoilAt } from '../driver/coil-heat.ts';
import { gateNetworkAt } from '../driver/gate-network.ts';
import { onceAsked } from '../driver/last-answer.ts';
import { startOf } from '../driver/start.ts';
import { shareInterval } from '../physics/confidence-interval.ts';
import { drawn, randomNumbers, type Spreading } from '../physics/random-numbers.ts';
import { rankCorrelation, ranks } from '../physics/rank-correlation.ts';
import type { Design } from '../project/design.ts';
import type { Ratio } from '../units/si.ts';
import { heldLoad } from './held-load.ts';
import { timedChecks } from './timed-checks.ts';
import { buildsOf, variablesOf, type Build, type Variable, type VariableId } from './variables.ts';

/** A variable with how it lies between its limits. */
export interface SpreadVariable extends Variable {
  readonly as: Spreading;
  /** Of each build. */
  readonly values: Float64Array;
}

/** How one check fares: its worst corner, and the builds. */
export interface CheckSpread {
  /** At the worst load and corner. */
  readonly worst: Result;
  readonly counts: Readonly<Record<Verdict, number>>;
  /** Of the share of builds that fail, with 95 % confidence; a build that is not assessed may fail or not. */
  readonly interval: { readonly lower: Ratio; readonly upper: Ratio };
  /** Rank of a verdict in each build; 255 where the design has no such part. */
  readonly verdicts: Uint8Array;
  /** Room left in each build; NaN where there is no number. */
  readonly margins: Float64Array;
  /** Rank correlation of the room left with each variable, strongest first; empty where the room does not vary. */
  readonly drivers: readonly { readonly id: VariableId; readonly correlation: Ratio }[];
  /** Why it is not assessed, in the first such build. */
  readonly reason?: string;
}

/** What the tolerances of a project come to. */
export interface Spread {
  readonly builds: number;
  readonly seed: number;
  /** Whether the worst corners have their starts in the time domain; builds never have. */
  readonly timed: boolean;
  readonly variables: readonly SpreadVariable[];
  readonly checks: readonly CheckSpread[];
}

/** The scan of rise times takes longer than everything else in a build; the start itself is judged by switch-surge-voltage. */
export const notInBuilds = 'rise-time';

/** Builds at a time, after which progress is told. */
const batch = 250;

const stream = 1;
const none = 255;

/**
 * Worst corner and random builds of a design: every build has one value of each variable, is computed in closed form and judged as
 * every corner is.
 *
 * @param worst     results at the worst corners
 * @param policies  levels, those of the project merged in
 * @param as        how each variable lies between its limits
 * @param progress  called with the share that is done
 */
export function spread({
  design,
  worst,
  timed,
  policies,
  builds,
  seed,
  as,
  progress,
}: {
  design: Design;
  worst: readonly Result[];
  timed: boolean;
  policies: Policies;
  builds: number;
  seed: number;
  as: (id: VariableId) => Spreading;
  progress: (share: Ratio) => void;
}): Spread {
  const variables = drawnVariables({ variables: variablesOf(design), builds, seed, as });
  const tallies = worst.filter(({ id }) => id !== notInBuilds).map((result) => emptyTally({ worst: result, builds }));
  const tallyOf = new Map(tallies.map((tally) => [tally.worst.id, tally]));
  const values: Partial<Record<VariableId, number>> = {};
  const buildWith = buildsOf(loadsAsResistances(design));
  const judgeBuild = (index: number): void => {
    for (const variable of variables) values[variable.id] = variable.values[index]!;
    for (const standing of buildStandings({ build: buildWith(values), policies })) {
      const tally = tallyOf.get(standing.id);
      if (tally !== undefined) count({ standing, tally, index, timed });
    }
  };
  for (let done = 0; done < builds;) {
    const next = Math.min(done + batch, builds);
    for (; done < next; done++) judgeBuild(done);
    progress(done / builds);
  }
  const rankOf = onceAsked(() => variables.map(({ id, values }) => ({ id, values, ranked: ranks({ values }) })));
  const checks = tallies.map(({ worst: result, verdicts: ranked, margins, reason }): CheckSpread => {
    const counts = countsOf(ranked);
    // told of few checks
    const drivers = onceAsked(() => driversOf({ margins, variables: rankOf() }));
    return {
      worst: result,
      counts,
      interval: {
        lower: shareInterval({ count: counts.fail, of: builds }).lower,
        upper: shareInterval({ count: counts.fail + counts['not assessed'], of: builds }).upper,
      },
      verdicts: ranked,
      margins,
      get drivers() {
        return drivers();
      },
      ...(reason === undefined ? {} : { reason }),
    };
  });
  return { builds, seed, timed, variables, checks };
}

/** What the builds make of a check, filled one by one. */
interface Tally {
  readonly worst: Result;
  readonly verdicts: Uint8Array;
  readonly margins: Float64Array;
  reason: string | undefined;
}

function emptyTally({ worst, builds }: { worst: Result; builds: number }): Tally {
  return { worst, verdicts: new Uint8Array(builds).fill(none), margins: new Float64Array(builds).fill(NaN), reason: undefined };
}

function count({ standing, tally, index, timed }: { standing: Standing; tally: Tally; index: number; timed: boolean }): void {
  const { worst } = tally;
  // where the time domain found no start to judge, the closed form of a build is no basis for a pass
  const isHollow = timed && worst.verdict === 'not assessed' && standing.verdict !== 'fail' && timedChecks.has(standing.id);
  const verdict = isHollow ? 'not assessed' : standing.verdict;
  tally.verdicts[index] = verdicts.indexOf(verdict);
  tally.margins[index] = standing.margin ?? (verdict === 'fail' ? -Infinity : NaN);
  if (verdict === 'not assessed') tally.reason ??= isHollow ? worst.reason : standing.reason;
}

/** A design whose loads given by loadedQ are the resistance that they are at nominal values, in every build: found once. */
function loadsAsResistances(design: Design): Design {
  return { ...design, loads: design.loads.map((load) => (load.loadedQ === undefined ? load : heldLoad({ design, load }))) };
}

/** A build with every load, judged as a corner is. */
export function buildStandings({ build: { design, corner }, policies }: { build: Build; policies: Policies }): readonly Standing[] {
  const [coil, gate] = [hottestCoilAt({ design, corner }), gateNetworkAt({ design, corner })];
  const corners = design.loads.map((load) => judgedCase({ design, load, corner, coil, gate }));
  const analysis: Analysis = { design, start: startOf(design), nominal: [], corners };
  return standingsOf({ analysis, policies, without: notInBuilds });
}

/** Build by build, so that more of them begin with the same ones. */
function drawnVariables({
  variables,
  builds,
  seed,
  as,
}: {
  variables: readonly Variable[];
  builds: number;
  seed: number;
  as: (id: VariableId) => Spreading;
}): readonly SpreadVariable[] {
  const next = randomNumbers({ seed, stream });
  const drawing = variables.map((variable) => ({ ...variable, as: as(variable.id), values: new Float64Array(builds) }));
  for (let i = 0; i < builds; i++)
    for (const { low, high, as: how, values } of drawing) values[i] = (low + high) / 2 + (drawn({ as: how, next }) * (high - low)) / 2;
  return drawing;
}

function countsOf(ranked: Uint8Array): Readonly<Record<Verdict, number>> {
  const counts: Record<Verdict, number> = { pass: 0, warn: 0, 'not assessed': 0, fail: 0 };
  for (const rank of ranked) {
    const verdict = verdicts[rank];
    if (verdict !== undefined) counts[verdict] += 1;
  }
  return counts;
}

/** Fewest builds that a correlation is told of. */
const fewest = 10;

function driversOf({
  margins,
  variables,
}: {
  margins: Float64Array;
  variables: readonly { id: VariableId; values: Float64Array; ranked: Float64Array }[];
}): CheckSpread['drivers'] {
  const isKnown = (margin: number): boolean => !Number.isNaN(margin);
  const known = margins.every(isKnown) ? margins : margins.filter(isKnown);
  const [first] = known;
  if (first === undefined || known.length < fewest || known.every((margin) => margin === first)) return [];
  const room = ranks({ values: known });
  const isWhole = known.length === margins.length;
  return variables
    .map(({ id, values, ranked }) => {
      const second = isWhole ? ranked : ranks({ values: values.filter((_, i) => isKnown(margins[i]!)) });
      return { id, correlation: rankCorrelation({ first: room, second }) };
    })
    .toSorted((a, b) => Math.abs(b.correlation) - Math.abs(a.correlation));
}
