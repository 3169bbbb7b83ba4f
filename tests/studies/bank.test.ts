import { describe, expect, test } from 'vitest';
import { bankChecks } from '../../src/checks/bank-checks.ts';
import { searchBank, type BankWish } from '../../src/checks/bank-search.ts';
import { withBank } from '../../src/checks/bank-state.ts';
import { verdicts, type Verdict } from '../../src/checks/judge.ts';
import { mixedStateOf } from '../../src/checks/mixed-state.ts';
import { reviewOf } from '../../src/checks/review.ts';
import { stateOf } from '../../src/checks/bank-state.ts';
import { analysisOf } from '../../src/driver/analysis.ts';
import { DesignError } from '../../src/driver/design-error.ts';
import { timedAnalysis } from '../../src/driver/timed-analysis.ts';
import type { Bank, Design } from '../../src/project/design.ts';
import { bankCurve, bankStudy, type BankRequest } from '../../src/studies/bank.ts';
import { drawerStudy } from '../../src/studies/drawer.ts';
import { defaults, designOf, edited, example, reviewedInTime } from '../checks/reviewed.ts';
import { capacitors, numbersFrom, randomDesigns } from './random-designs.ts';

const ids = bankChecks.map(({ id }) => id);
const policies = defaults;

/** Whether the checks of the bank pass, as `check` has them. */
function passes({ design, timed = false }: { design: Design; timed?: boolean }): 'all' | 'open' | 'not' {
  try {
    const analysis = timed ? timedAnalysis(analysisOf(design)) : analysisOf(design);
    const verdicts = reviewOf({ analysis, policies }).flatMap(({ id, verdict }) => (ids.includes(id) ? [verdict] : []));
    if (verdicts.some((verdict) => verdict === 'fail' || verdict === 'warn')) return 'not';
    return verdicts.includes('not assessed') ? 'open' : 'all';
  } catch (error) {
    if (error instanceof DesignError) return 'open';
    throw error;
  }
}

const request = (over: Partial<BankRequest> = {}): BankRequest => ({
  keep: 'capacitance',
  within: 0.1,
  mostCount: 500,
  depth: 'closed form',
  ...over,
});

describe('bolt-heater, whose bank overheats', () => {
  const design = designOf(example('bolt-heater'));
  const { bank } = design.tank;
  const study = (over: Partial<BankRequest>): Bank => {
    const { answers } = bankStudy({ design, policies, parts: [bank.capacitor], request: request(over), progress: () => undefined });
    const [answer] = answers;
    if (answer?.kind !== 'passes') throw new Error('no bank passes');
    return answer.option.bank;
  };

  test('fails as it is', () => expect(passes({ design, timed: true })).toBe('not'));

  test('passes with the bank that is named; one string less no longer holds the capacitance, one in series less fails', () => {
    const named = study({ depth: 'time domain' });
    expect(named).toMatchObject({ series: 3, parallel: 17 });
    expect(passes({ design: withBank({ design, bank: named }), timed: true })).toBe('all');
    expect((named.parallel - 1) / named.series / bank.parallel).toBeLessThan(0.9);
    expect(passes({ design: withBank({ design, bank: { ...named, series: 2, parallel: 13 } }), timed: true })).toBe('not');
  });

  test('where the checks alone set the count, it passes, and with one string less it does not', () => {
    const named = study({ depth: 'time domain', series: 3, within: 0.5 });
    expect(passes({ design: withBank({ design, bank: named }), timed: true })).toBe('all');
    expect(passes({ design: withBank({ design, bank: { ...named, parallel: named.parallel - 1 } }), timed: true })).toBe('not');
  });
});

describe('a hundred random designs against brute force over the same checks', () => {
  const random = numbersFrom(7);
  const cases = randomDesigns({ count: 100, seed: 2026 }).map((design) => ({
    design,
    capacitor: random() < 0.5 ? design.tank.bank.capacitor : capacitors[Math.floor(random() * capacitors.length)]!,
    within: [0.05, 0.1, 0.3, 0.6][Math.floor(random() * 4)]!,
  }));
  const mostCount = 40;
  const outcomes = cases.map(({ design, capacitor, within }) => {
    const own = design.tank.bank;
    const wanted = (own.capacitor.ratings.capacitance!.value * own.parallel) / own.series;
    const wish: BankWish = { least: wanted * (1 - within), most: wanted * (1 + within), mostCount };
    const answer = searchBank({ design, policies, capacitor, wish, depth: 'closed form' });
    let best: { bank: Bank; verdict: 'all' | 'open' } | undefined;
    for (let count = 1; count <= mostCount && best === undefined; count++)
      for (let series = 1; series <= count && best === undefined; series++) {
        const parallel = count / series;
        const capacitance = (capacitor.ratings.capacitance!.value * parallel) / series;
        if (!Number.isInteger(parallel) || Math.abs(capacitance / wanted - 1) > within * (1 + 1e-9)) continue;
        const bank: Bank = { capacitor, series, parallel, cooling: own.cooling };
        const verdict = passes({ design: withBank({ design, bank }) });
        if (verdict !== 'not') best = { bank, verdict };
      }
    return { answer, best };
  });

  test('no smaller bank passes, and the one that is named does', () => {
    for (const { answer, best } of outcomes) {
      expect(answer.passing?.bank).toEqual(best?.verdict === 'all' ? best.bank : undefined);
      expect(answer.open?.bank).toEqual(best?.verdict === 'open' ? best.bank : undefined);
    }
  });

  test('among them are enough of each kind for this to mean something', () => {
    const kinds = outcomes.map(({ best }) => best?.verdict ?? 'none');
    for (const kind of ['all', 'open', 'none']) expect(kinds.filter((one) => one === kind).length).toBeGreaterThan(5);
  });
});

describe('a bank that only warns while running, and fails at switch-on or load removal', () => {
  const inline = `part: {capacitance: 100 nF, tolerance: 5 %, voltageDc: 90 V, voltageAc: 89 V, dielectric: polypropylene, maxRise: 10 K,
      maxTemperature: 85 degC, lossTangent: {10 kHz: 0.0004, 100 kHz: 0.001}, thermalResistance: {still air: 32 K/W}, currentRms: 6 A,
      voltageSlope: 1000 V/us}`;
  const text = edited(example('charging-pad'), ['voltage: 18 V', 'voltage: 22 V'], ['part: pp-foil-100n-1000v', inline]);
  const design = designOf(text);
  const gravestOf = (results: readonly { id: string; verdict: Verdict }[]): Verdict =>
    results
      .flatMap(({ id, verdict }) => (ids.includes(id) ? [verdict] : []))
      .reduce((a, b) => (verdicts.indexOf(b) > verdicts.indexOf(a) ? b : a));

  test('is told to, at every count of the curve, as check has it', () => {
    const counts = [3, 4, 5, 6, 7, 8, 20];
    const { capacitor } = design.tank.bank;
    const curve = bankCurve({ design, policies, capacitor, series: 1, counts, depth: 'time domain', progress: () => undefined });
    const checked = counts.map((count) => gravestOf([...reviewedInTime(edited(text, ['parallel: 6', `parallel: ${count}`])).values()]));
    expect(curve.map(({ state }) => state.verdict)).toEqual(checked);
    expect(new Set(checked)).toEqual(new Set(['fail', 'warn']));
  });

  test('and as the bank that the project has', () => {
    const { now } = bankStudy({ design, policies, parts: [], request: request(), progress: () => undefined });
    for (const stress of now.state.stresses) {
      const { verdict, value } = reviewOf({ analysis: analysisOf(design), policies }).find(({ id }) => id === stress.id)!;
      expect(stress).toMatchObject({ verdict, value });
    }
    expect(now.state.verdict).toBe('fail');
  });
});

describe('a bank of several parts', () => {
  const design = designOf(example('bolt-heater'));
  const [small, large] = ['pp-box-100n-630v', 'pp-box-330n-630v'].map((name) => capacitors.find((part) => part.name === name)!) as [
    (typeof capacitors)[number],
    (typeof capacitors)[number],
  ];
  const load = (state: ReturnType<typeof stateOf>, id: string): number => state.stresses.find((stress) => stress.id === id)!.value!;

  test('of one part alone is that bank', () => {
    const bank: Bank = { capacitor: large, series: 3, parallel: 17, cooling: 'still air' };
    const plain = stateOf({ analysis: analysisOf(withBank({ design, bank })), policies });
    const mix = { members: [{ capacitor: large, strings: 17 }], series: 3, cooling: 'still air' } as const;
    const mixed = mixedStateOf({ design, mix, policies, depth: 'closed form' }).whole;
    for (const id of ids) expect(load(mixed, id) / load(plain, id)).toBeCloseTo(1, 3);
  });

  test('shares the current by capacitance, and has each part judged with its own ratings', () => {
    const mix = {
      members: [
        { capacitor: large, strings: 12 },
        { capacitor: small, strings: 17 },
      ],
      series: 3,
      cooling: 'still air',
    } as const;
    const { members, whole } = mixedStateOf({ design, mix, policies, depth: 'closed form' });
    const [ofLarge, ofSmall] = members as [ReturnType<typeof stateOf>, ReturnType<typeof stateOf>];
    expect(load(ofLarge, 'capacitor-current') / load(ofSmall, 'capacitor-current')).toBeCloseTo(330 / 100, 6);
    expect(load(ofLarge, 'capacitor-peak-voltage')).toBeCloseTo(load(ofSmall, 'capacitor-peak-voltage'), 9);
    expect(whole.stresses.find(({ id }) => id === 'capacitor-self-heating')!.value).toBe(
      Math.max(load(ofLarge, 'capacitor-self-heating'), load(ofSmall, 'capacitor-self-heating')),
    );
  });

  test('comes out of a drawer with no more than is there, within the wished capacitance, and no single part would do', () => {
    const stock = [
      { capacitor: large, count: 36 },
      { capacitor: small, count: 60 },
    ];
    const drawer = (of: typeof stock): ReturnType<typeof drawerStudy>[number] =>
      drawerStudy({ design, policies, stock: of, request: request(), progress: () => undefined })[0]!;
    const { kind, bank } = drawer(stock);
    expect(kind).toBe('passes');
    const { members, series } = bank!.mix;
    for (const { capacitor, strings } of members)
      expect(strings * series).toBeLessThanOrEqual(stock.find((one) => one.capacitor === capacitor)!.count);
    expect(Math.abs(bank!.capacitance / 1.98e-6 - 1)).toBeLessThanOrEqual(0.1);
    expect(members).toHaveLength(2);
    for (const one of stock) expect(drawer([one]).kind).toBe('none');
  });
});
