// The time-domain solver against SciPy's LSODA and SUNDIALS' CVODE: a switch-on of 2 ms, 24 V, 2 uH, 1.5 uF, Q 30, with the same equations and
// the same longest step; processor time, since the machine may have other work. Says what it measured and asserts nothing; what is not installed is skipped.
import { build } from 'esbuild';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, '..', '..');
const work = mkdtempSync(join(tmpdir(), 'time-domain-'));
const accuracy = 0.005;
const until = 2e-3;
const [inductance, capacitance, quality] = [2e-6, 1.5e-6, 30];
const impedance = Math.sqrt(inductance / capacitance);
const coilQuality = 100;
const longest = (2 * Math.PI * Math.sqrt(inductance * capacitance)) / 70;
const load = impedance / (1 / quality - 1 / coilQuality);
const channel = (threshold) => ({ constant: 8, series: 0.06, threshold });
const circuit = {
  arrangement: 'two',
  supply: { voltage: 24, riseTime: 0, rising: 0, resistance: 0.05 },
  choke: { inductance: 40 * inductance, resistance: 0.015 },
  tank: { inductance, coilResistance: impedance / coilQuality, capacitance, load, loadAfter: load, changesAt: 1e9 },
  switches: [channel(3.03), channel(2.97)],
  capacitances: { gateToSource: 3.8e-9, gateToDrain: 0.2e-9, drainToSource: 0.48e-9 },
  bodyDiode: { saturation: 4.45e-9, emission: 0.039, slope: 0.012 },
  gates: {
    pullUp: 220,
    pullDown: 1e4,
    releasedAt: 0,
    rail: 12,
    clamp: { voltage: 12, resistance: 9 },
    crossDiode: { saturation: 3.62e-10, emission: 0.046, slope: 0.05 },
  },
};

const quantile = (values, share) => values.toSorted((a, b) => a - b)[Math.round(share * (values.length - 1))];
const median = (values) => quantile(values, 0.5);
const keys = ['drain', 'tank', 'supply', 'choke', 'gate'];
/** Largest difference of the peaks, a gate's on the knee of its clamp left out. */
const apart = (a, b) => Math.max(...keys.filter((key) => key !== 'gate').map((key) => Math.abs(a[key] / b[key] - 1)));

/** The solver of the tool, from its sources. */
async function ours() {
  const contents = `
    export { runOf } from './src/driver/time-domain/run.ts';
    export { recorder } from './src/driver/time-domain/recorder.ts';
    export { usualEffort } from './src/driver/time-domain/effort.ts';`;
  const outfile = join(work, 'solver.mjs');
  await build({
    stdin: { contents, resolveDir: root, loader: 'ts' },
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    outfile,
  });
  const { runOf, recorder, usualEffort } = await import(pathToFileURL(outfile).href);
  const run = ({ end, see }) =>
    runOf({
      circuit,
      initial: new Float64Array(7),
      until: end,
      accuracy: { tolerance: usualEffort.tolerance, longestStep: longest },
      mostSteps: 1e9,
      watch: (moment) => {
        see?.(moment);
        return false;
      },
    });
  return { run, recorder };
}

/** Runs a peer that writes JSON; undefined where it gives up. */
function told(command, args) {
  try {
    return JSON.parse(execFileSync(command, args.map(String), { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }));
  } catch {
    return undefined;
  }
}

function scipy(form) {
  const path = join(work, 'circuit.json');
  writeFileSync(path, JSON.stringify(circuit));
  if (told('python3', ['-c', 'import scipy; print(1)']) === undefined) return undefined;
  return (rtol, runs) => told('python3', [join(here, 'lsoda.py'), path, until, longest, rtol, 10 * rtol, runs, form]);
}

function cvode() {
  const values = join(work, 'values');
  const program = join(work, 'driver-equations');
  const flat = (value) => (typeof value === 'object' ? Object.values(value).flatMap(flat) : [value]);
  const { supply, choke, tank, switches, capacitances, bodyDiode, gates } = circuit;
  writeFileSync(
    values,
    flat([
      [supply.voltage, supply.resistance],
      choke,
      [tank.inductance, tank.coilResistance, tank.capacitance, tank.load],
      switches,
      capacitances,
      bodyDiode,
      [gates.pullUp, gates.pullDown, gates.rail, gates.clamp],
      gates.crossDiode,
    ]).join('\n'),
  );
  const libraries = ['cvode', 'nvecserial', 'sunmatrixdense', 'sunlinsoldense'].map((name) => `-lsundials_${name}`);
  try {
    execFileSync('cc', ['-O2', '-o', program, join(here, 'driver-equations.c'), ...libraries, '-lm'], { stdio: 'ignore' });
  } catch {
    return undefined;
  }
  return (rtol, runs) => told(program, [values, until, longest, rtol, 10 * rtol, runs]);
}

/** The loosest of these tolerances that gives the peaks to the accuracy, as every tighter one does. */
function loosest(peer, reference) {
  let found;
  for (const rtol of [1e-4, 3e-4, 1e-3, 3e-3, 1e-2]) {
    const result = peer(rtol, 1);
    if (result === undefined || apart(result.peaks, reference) > accuracy) break;
    found = rtol;
  }
  return found;
}

function line(name, seconds, { peaks, steps }, reference, ratio) {
  const [low, middle, high] = [0.25, 0.5, 0.75].map((share) => (1e3 * quantile(seconds, share)).toFixed(1));
  console.log(
    `${name.padEnd(70)} ${middle.padStart(8)} (${low} … ${high})  ${ratio.padStart(6)}  ${String(steps).padStart(7)}  ` +
      `${peaks.drain.toFixed(2)} V ${peaks.supply.toFixed(3)} A  ${(100 * apart(peaks, reference)).toFixed(3)} %`,
  );
}

try {
  const { run, recorder } = await ours();
  const timed = (options) => {
    const began = process.cpuUsage();
    const result = run(options);
    const { user, system } = process.cpuUsage(began);
    return { result, seconds: (user + system) / 1e6 };
  };
  const first = timed({ end: until }).seconds;
  const runs = Array.from({ length: 25 }, () => timed({ end: until }));
  const own = runs[0].result;
  const peers = [
    { name: 'SUNDIALS CVODE, BDF, dense', needs: 'libsundials-dev and cc', peer: cvode(), repeats: 15, fixed: 1e-6 },
    { name: 'SciPy LSODA', needs: 'python3-scipy', peer: scipy('numpy'), repeats: 3 },
    { name: 'SciPy LSODA, plain floats', needs: 'python3-scipy', peer: scipy('floats'), repeats: 3 },
  ];
  const exact = peers.find(({ peer }) => peer !== undefined)?.peer(1e-9, 1)?.peaks ?? own.peaks;
  const middle = median(runs.map(({ seconds }) => seconds));
  console.log(
    `switch-on of ${until * 1e3} ms, 24 V, 2 uH, 1.5 uF, Q ${quality}, steps of at most ${(longest * 1e9).toFixed(0)} ns, Node.js ${process.version}`,
  );
  console.log(`${'ms of processor time: median (quartiles)'.padEnd(80)} over ours, steps, peaks, furthest from a run at rtol 1e-9`);
  line(
    'ours',
    runs.map(({ seconds }) => seconds),
    own,
    exact,
    '1.0',
  );
  console.log(`${'ours, first run of a process'.padEnd(70)} ${(1e3 * first).toFixed(1).padStart(8)}`);
  for (const { name, needs, peer, repeats, fixed } of peers) {
    if (peer === undefined) {
      console.log(`${name}: skipped, needs ${needs}`);
      continue;
    }
    const found = loosest(peer, exact);
    for (const rtol of new Set([fixed, found].filter((value) => value !== undefined))) {
      const result = peer(rtol, repeats);
      if (result === undefined) continue;
      const what = `${name} ${result.version}, rtol ${rtol}${rtol === found ? ' (loosest)' : ''}`;
      line(what, result.seconds, result, exact, (median(result.seconds) / middle).toFixed(1));
    }
    if (found === undefined) console.log(`${name}: no tolerance from 1e-4 on gives the peaks within ${100 * accuracy} %`);
  }
  console.log('\nlength of the run: ms of computing a simulated ms, recorder of 4000 slices');
  for (const end of [1e-3, 2e-3, 4e-3, 8e-3]) {
    const seconds = median(Array.from({ length: 9 }, () => timed({ end }).seconds));
    const { see, recording } = recorder({ slices: 4000, first: 1e-7 });
    run({ end, see });
    const { lowest, highest, count } = recording({ endedAt: end });
    const bytes = [lowest, highest].flatMap(Object.values).reduce((sum, track) => sum + track.byteLength, 0);
    console.log(`${end * 1e3} ms: ${(seconds / end).toFixed(1)}; recorder ${(bytes / 1024).toFixed(0)} KiB, ${count} slices in use`);
  }
} finally {
  rmSync(work, { recursive: true, force: true });
}
