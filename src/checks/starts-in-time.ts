import type { Analysis } from '../driver/analysis.ts';
import { isSameCorner } from '../driver/corner.ts';
import type { SettledStart } from '../driver/settled-start.ts';
import { latchedWords } from './latched-words.ts';
import { startRemedy } from './start-remedy.ts';
import { largerSupply } from './supply-limit.ts';
import { bulkCharging, supplyAtStart, type Statement } from './supply-at-start.ts';
import type { Verdict } from './judge.ts';

/** What the time domain says of the start with each load. */
export function startsInTime({ analysis, starts }: { analysis: Analysis; starts: NonNullable<Analysis['starts']> }): readonly Statement[] {
  const { design } = analysis;
  const statements = toldTogether({ analysis, starts });
  const others = [...(design.supply.currentLimit?.kind === 'constant' ? [] : [...supplyAtStart(analysis), ...bulkCharging(analysis)])];
  if (statements.length === 0) {
    return [
      { verdict: 'pass', words: () => 'in the time domain it starts with every load, hot and cold, with thresholds 0.5 % to 5 % apart' },
      ...others,
    ];
  }
  let found: { readonly remedy: string | undefined } | undefined;
  const remedy = (): string | undefined => {
    const words = [largerSupply(analysis), startRemedy(analysis)].filter((part) => part !== undefined);
    return (found ??= { remedy: words.length === 0 ? undefined : words.join('; or ') }).remedy;
  };
  return [...statements.map((statement) => ({ ...statement, remedy })), ...others];
}

/** The starts that do not run, loads with the same outcome for the same reason in one statement. */
function toldTogether({ analysis, starts }: { analysis: Analysis; starts: NonNullable<Analysis['starts']> }): readonly Statement[] {
  const told = new Map<string, { readonly verdict: Verdict; readonly before: string; readonly loads: string[]; readonly after: string }>();
  starts.forEach((start, index) => {
    const load = analysis.design.loads[index]?.name ?? '';
    const [outcome, why] = 'unknown' in start ? (['unknown', start.unknown] as const) : ([start.outcome, start.why] as const);
    if (outcome === 'runs') return;
    const known = told.get(`${outcome} ${why}`);
    if (known !== undefined) known.loads.push(load);
    else {
      const verdict = outcome === 'latches' || outcome === 'stalls' ? 'fail' : 'not assessed';
      const after = `${why}${'outcome' in start ? endOf({ analysis, start, load }) : ''}`;
      told.set(`${outcome} ${why}`, { verdict, before: outcomes[outcome], loads: [load], after });
    }
  });
  return [...told.values()].map(({ verdict, before, loads, after }) => ({
    verdict,
    words: () => `${before} with ${loads.join(' and with ')}: ${after}`,
  }));
}

const outcomes = {
  latches: 'both switches latch',
  stalls: 'it does not start',
  undecided: 'the start is undecided',
  unknown: 'start',
} as const;

/** What becomes of a pair that latched. */
function endOf({ analysis, start, load }: { analysis: Analysis; start: SettledStart; load: string }): string {
  const point = analysis.corners.find(({ point: { load: own, corner } }) => own.name === load && isSameCorner(corner, start.corner))?.point;
  return start.outcome === 'latches' && point !== undefined ? `; ${latchedWords({ analysis, point })}` : '';
}
