import { describe, expect, test } from 'vitest';
import { projectPolicies } from '../../src/checks/read-policies.ts';
import { reviewOf } from '../../src/checks/review.ts';
import { analysisOf } from '../../src/driver/analysis.ts';
import { timedAnalysis } from '../../src/driver/timed-analysis.ts';
import { drawn, randomNumbers, type Spreading } from '../../src/physics/random-numbers.ts';
import { buildStandings, notInBuilds, spread, type CheckSpread, type Spread } from '../../src/studies/spread.ts';
import { buildOf, variablesOf, type VariableId } from '../../src/studies/variables.ts';
import { defaults, designOf, edited, example, measuredPad, reviewed } from '../checks/reviewed.ts';

function policiesFor(design: ReturnType<typeof designOf>): typeof defaults {
  const policies = projectPolicies({ policies: defaults, design });
  if (!policies.ok) throw new Error('limits');
  return policies.value;
}

function spreadOf(
  text: string,
  { builds = 4000, seed = 1, as = 'uniform', timed = false }: { builds?: number; seed?: number; as?: Spreading; timed?: boolean } = {},
): Spread {
  const design = designOf(text);
  const policies = policiesFor(design);
  const analysis = analysisOf(design);
  const worst = reviewOf({ analysis: timed ? timedAnalysis(analysis) : analysis, policies });
  return spread({ design, worst, timed, policies, builds, seed, as: () => as, progress: () => undefined });
}

const check = (found: Spread, id: string): CheckSpread => found.checks.find(({ worst }) => worst.id === id)!;

/** The gates straight on the supply, without a clamp: their peak is V·Rpd/(Rg + Rpd), linear in the supply alone. */
const openGates = edited(
  measuredPad,
  ['  clamp: 1N4744A\n', ''],
  ['from: 12 V', 'from: supply'],
  ['pullDown: 10 kohm', 'pullDown: 220 ohm'],
  ['riseTime: 3 ms', 'riseTime: 50 ms'],
);

describe('shares against probabilities that can be computed', () => {
  // gate peak V·s/2 against V_GS = 20 V of the IRFP250N; s uniform in 0.9 to 1.1, so P = (1.1 − s*)/0.2 with s* = 40/V
  test.each([38, 39.5, 40, 41, 43])('one uniform variable decides one check, at %d V', (volts) => {
    const text = edited(openGates, ['voltage: 18 V', `voltage: ${volts} V`], ['tolerance: 5 %', 'tolerance: 10 %']);
    const { counts, interval, drivers } = check(spreadOf(text), 'gate-peak-voltage');
    const exact = Math.min(1, Math.max(0, (1.1 - 40 / volts) / 0.2));
    expect(exact).toBeGreaterThan(0.05);
    expect(exact).toBeLessThan(0.95);
    expect(interval.lower).toBeLessThanOrEqual(exact);
    expect(interval.upper).toBeGreaterThanOrEqual(exact);
    expect(counts['not assessed']).toBe(0);
    expect(drivers[0]).toMatchObject({ id: 'supply' });
    expect(drivers[0]!.correlation).toBeLessThan(-0.999);
  });

  // the current of the coil goes with the supply alone: it fails from where a project of that voltage has the limit
  test.each([0.93, 1, 1.06])('the temperature of a coil, at the limit with %d of the supply', (share) => {
    const coil = (volts: number, tolerance: number, limit = ''): string =>
      edited(
        measuredPad,
        ['voltage: 18 V', `voltage: ${volts} V`],
        ['  tolerance: 5 %', `  tolerance: ${tolerance} %`],
        ['    tolerance: 3 %\n', '    shape: loop\n    diameter: 300 mm\n    conductor: {shape: tube, outerDiameter: 4 mm, wall: 1 mm}\n'],
        ['    part: pp-foil-100n-1000v', '    part: {capacitance: 100 nF, tolerance: 0 %, voltageDc: 1 kV, lossTangent: 0.0004}'],
        ['environment:', `${limit}environment:`],
      );
    const atLimit = reviewed(coil(18 * share, 0)).get('coil-temperature')!.value! - 273.15;
    const text = coil(18, 10, `limits: {coil-temperature: {warn: 0 degC, fail: ${atLimit} degC}}\n`);
    const { counts, interval, drivers } = check(spreadOf(text, { builds: 1500 }), 'coil-temperature');
    const exact = (1.1 - share) / 0.2;
    expect(interval.lower).toBeLessThanOrEqual(exact);
    expect(interval.upper).toBeGreaterThanOrEqual(exact);
    expect(counts['not assessed']).toBe(0);
    expect(drivers[0]).toMatchObject({ id: 'supply' });
  });

  // choke ratio Lc·c/(L·k) below 10 fails: area of c < 10·k·L/Lc in the rectangle of c in 1 ± 0.2, k in 1 ± 0.1
  test.each([1.0, 1.05, 0.95])('two uniform variables decide one check, their quotient %d at the limit', (limit) => {
    const inline = `inductance: ${(10 * 4.5) / limit} uH\n  resistance: 20 mohm\n  saturationCurrent: 10 A\n  tolerance: 20 %`;
    const text = edited(
      measuredPad,
      ['part: choke-100u-10a-sendust', inline],
      ['    tolerance: 3 %', '    tolerance: 10 %'],
      ['    frequencyShift: -2 %\n', ''],
    );
    const cells = 20_000;
    let exact = 0;
    for (let i = 0; i < cells; i++) {
      const k = 0.9 + (0.2 * (i + 0.5)) / cells;
      exact += Math.min(1, Math.max(0, (limit * k - 0.8) / 0.4)) / cells;
    }
    const { interval, drivers } = check(spreadOf(text), 'choke-ratio');
    expect(interval.lower).toBeLessThanOrEqual(exact);
    expect(interval.upper).toBeGreaterThanOrEqual(exact);
    expect(drivers.slice(0, 2).map(({ id }) => id)).toEqual(['choke', 'coil']);
    expect(drivers[0]!.correlation).toBeGreaterThan(0.8);
    expect(drivers[1]!.correlation).toBeLessThan(-0.3);
  });

  test('at the limits one of two ends fails in half of the builds, and a normal one seldom', () => {
    const text = edited(openGates, ['voltage: 18 V', 'voltage: 38 V'], ['tolerance: 5 %', 'tolerance: 10 %']);
    const half = check(spreadOf(text, { as: 'limit' }), 'gate-peak-voltage').interval;
    expect(half.lower).toBeLessThan(0.5);
    expect(half.upper).toBeGreaterThan(0.5);
    // beyond 1.5789 standard deviations of a normal distribution cut at 3: (Φ(3) − Φ(1.5789))/(2Φ(3) − 1) = 0.0561
    const seldom = check(spreadOf(text, { as: 'normal' }), 'gate-peak-voltage').interval;
    expect(seldom.lower).toBeLessThan(0.0561);
    expect(seldom.upper).toBeGreaterThan(0.0561);
  });
});

describe('a build is the ordinary analysis of a project that states its values', () => {
  test('random builds of a pad, written out as projects without tolerances', () => {
    const switches = `switches:
  part: {drainVoltage: 200 V, onResistance: 75 mohm, onResistanceAt: {gateVoltage: 10 V, drainCurrent: 18 A}, thresholdMin: LOW, thresholdMax: HIGH, transconductance: 17 S, drainCurrent: 30 A, gateVoltage: 20 V, junctionTemperature: 175 degC, junctionToCase: 0.7 K/W, caseToSink: 0.24 K/W, inputCapacitance: 2159 pF, gateCharge: {value: 123 nC, at: {gateVoltage: 10 V}}}`;
    const clamp = '  clamp: {zenerVoltage: ZENER, tolerance: BOTH, power: 1 W, impedance: 14 ohm, testCurrent: 17 mA}';
    const capacitor = `    part: {capacitance: EACH, tolerance: SET, voltageDc: 1000 V, voltageAc: 250 V, currentRms: 5 A, lossTangent: 0.0006, dielectric: polypropylene, thermalResistance: {still air: 30 K/W}, maxTemperature: 105 degC}`;
    const choke = '  inductance: LC\n  resistance: 30 mohm\n  saturationCurrent: 10 A\n  tolerance: OWN';
    const written = edited(
      measuredPad,
      ['switches:\n  part: IRFP250N', switches],
      ['  clamp: 1N4744A', clamp],
      ['    part: pp-foil-100n-1000v', capacitor],
      ['  part: choke-100u-10a-sendust', choke],
      ['voltage: 18 V\n  tolerance: 5 %', 'voltage: VOLTS\n  tolerance: RAIL'],
      ['inductance: 4.5 uH', 'inductance: COIL'],
      ['    tolerance: 3 %', '    tolerance: TURNS'],
      ['    power: 25 W', '    LOAD'],
    );
    const filled = (values: Record<string, string>): string =>
      Object.entries(values).reduce((text, [word, value]) => text.replaceAll(new RegExp(`\\b${word}\\b`, 'g'), value), written);
    const [volts, watts] = [18, 25];
    const base = designOf(
      filled({
        LOW: '2 V',
        HIGH: '4 V',
        ZENER: '10 V',
        BOTH: '5 %',
        EACH: '100 nF',
        SET: '5 %',
        LC: '100 uH',
        OWN: '20 %',
        VOLTS: `${volts} V`,
        RAIL: '5 %',
        COIL: '4.5 uH',
        TURNS: '3 %',
        LOAD: `power: ${watts} W`,
      }),
    );
    const variables = variablesOf(base);
    expect(variables.map(({ id }) => id)).toEqual(['supply', 'coil', 'bank', 'choke', 'threshold', 'clamp']);
    const next = randomNumbers({ seed: 3, stream: 1 });
    for (let i = 0; i < 25; i++) {
      const values = Object.fromEntries(
        variables.map(({ id, low, high }) => [id, (low + high) / 2 + (drawn({ as: 'uniform', next }) * (high - low)) / 2]),
      ) as Record<VariableId, number>;
      const text = filled({
        LOW: `${values.threshold} V`,
        HIGH: `${values.threshold} V`,
        ZENER: `${10 * values.clamp} V`,
        BOTH: '0 %',
        EACH: `${100 * values.bank} nF`,
        SET: '5 %',
        LC: `${100 * values.choke} uH`,
        OWN: '0 %',
        VOLTS: `${volts * values.supply} V`,
        RAIL: '0 %',
        COIL: `${4.5 * values.coil} uH`,
        TURNS: '0 %',
        LOAD: `parallelResistance: ${(Math.PI * volts) ** 2 / (2 * watts)} ohm`,
      });
      const design = designOf(text);
      const own = buildStandings({
        build: { design, corner: { supply: 1, coil: 1, capacitor: 1, choke: 1 } },
        policies: policiesFor(design),
      });
      const built = buildStandings({ build: buildOf({ design: base, values }), policies: policiesFor(base) });
      expect(built.map(({ id, verdict }) => [id, verdict])).toEqual(own.map(({ id, verdict }) => [id, verdict]));
      for (const [k, standing] of built.entries()) {
        if (standing.value === null) expect(own[k]!.value).toBeNull();
        else expect(Math.abs(standing.value - own[k]!.value!)).toBeLessThanOrEqual(1e-9 * Math.abs(standing.value) + 1e-15);
      }
    }
  });

  test('a build at the corner that is the worst stands as check says it does', () => {
    const text = edited(measuredPad, ['  clamp: 1N4744A\n', '']);
    const results = reviewed(text);
    const design = designOf(text);
    const policies = policiesFor(design);
    const found = analysisOf(design).corners.map(({ point: { corner } }) => {
      const values = { supply: corner.supply, coil: corner.coil, bank: corner.capacitor, choke: corner.choke };
      return new Map(buildStandings({ build: buildOf({ design, values }), policies }).map((standing) => [standing.id, standing]));
    });
    for (const [id, { margin }] of results) {
      if (margin === null || id === notInBuilds) continue;
      const least = Math.min(...found.map((standings) => standings.get(id)?.margin ?? Infinity));
      expect({ id, least }).toEqual({ id, least: margin });
    }
  });
});

describe('builds', () => {
  test('are the same for the same seed, and more of them begin with the same ones', () => {
    const [first, again, other, more] = [
      spreadOf(measuredPad, { builds: 50 }),
      spreadOf(measuredPad, { builds: 50 }),
      spreadOf(measuredPad, { builds: 50, seed: 2 }),
      spreadOf(measuredPad, { builds: 60 }),
    ];
    expect(again).toEqual(first);
    expect(other.variables[0]!.values).not.toEqual(first.variables[0]!.values);
    expect(more.variables[0]!.values.slice(0, 50)).toEqual(first.variables[0]!.values);
  });

  test('never leave less room than the worst corner, where nothing else than its tolerances is varied', () => {
    const text = example('live-rail-lamp');
    const design = designOf(text);
    const policies = policiesFor(design);
    const variables = variablesOf(design).filter(({ id }) => id !== 'threshold');
    const next = randomNumbers({ seed: 1, stream: 1 });
    const worst = reviewed(text);
    for (let i = 0; i < 200; i++) {
      const values = Object.fromEntries(
        variables.map(({ id, low, high }) => [id, low + ((1 + drawn({ as: 'uniform', next })) / 2) * (high - low)]),
      );
      for (const { id, margin } of buildStandings({ build: buildOf({ design, values }), policies })) {
        const least = worst.get(id)!.margin;
        if (margin !== null && least !== null) expect({ id, holds: margin >= least - 1e-9 }).toEqual({ id, holds: true });
      }
    }
  });

  test('say nothing of a check whose start the time domain could not judge', () => {
    const { counts, interval, worst } = check(spreadOf(example('bindery-lamp'), { builds: 40, timed: true }), 'switch-surge-voltage');
    expect(worst.verdict).toBe('not assessed');
    expect(counts['not assessed']).toBe(40);
    expect(interval).toEqual({ lower: 0, upper: 1 });
  });

  test('of a project without tolerances are all alike', () => {
    const text = edited(
      measuredPad,
      ['  tolerance: 5 %\n', ''],
      ['    tolerance: 3 %\n', ''],
      ['  clamp: 1N4744A\n', ''],
      ['    part: pp-foil-100n-1000v', '    part: {capacitance: 100 nF, tolerance: 0 %, voltageDc: 1000 V}'],
      ['  part: IRFP250N', '  part: {drainVoltage: 200 V, onResistance: 75 mohm, thresholdMin: 3 V, thresholdMax: 3 V}'],
      ['  part: choke-100u-10a-sendust', '  inductance: 100 uH'],
    );
    const found = spreadOf(text, { builds: 20 });
    expect(found.variables).toEqual([]);
    expect(found.checks.every(({ drivers }) => drivers.length === 0)).toBe(true);
  });
});
