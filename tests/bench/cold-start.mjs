// Cold start of one check against an empty Node.js process, interleaved in one run. Says what it measured and asserts nothing.
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const bin = join(root, 'dist', 'bin.js');
const runs = 25;
const commands = {
  'node -e 0': ['-e', '0'],
  'check --closed-form, coil as measured': [bin, 'check', '--closed-form', join(root, 'examples', 'spark-igniter.yaml')],
  'check --closed-form, coil by geometry': [bin, 'check', '--closed-form', join(root, 'examples', 'charging-pad.yaml')],
  'check, starts in the time domain': [bin, 'check', join(root, 'examples', 'charging-pad.yaml')],
  'check --closed-form --json (4 files)': [
    bin,
    'check',
    '--closed-form',
    '--json',
    ...['charging-pad', 'bolt-heater', 'live-rail-lamp', 'spark-igniter'].map((name) => join(root, 'examples', `${name}.yaml`)),
  ],
  'tankproof explain latch-up': [bin, 'explain', 'latch-up'],
  'tankproof --version': [bin, '--version'],
};

const times = Object.fromEntries(Object.keys(commands).map((name) => [name, []]));
for (let run = -2; run < runs; run++) {
  for (const [name, args] of Object.entries(commands)) {
    const start = process.hrtime.bigint();
    spawnSync(process.execPath, args, { stdio: 'ignore' });
    if (run >= 0) times[name].push(Number(process.hrtime.bigint() - start) / 1e6);
  }
}

const at = (values, share) => values.toSorted((a, b) => a - b)[Math.floor(share * (values.length - 1))];
const base = at(times['node -e 0'], 0.5);
console.log(`${runs} runs each, Node.js ${process.version}; ms: median (quartiles), ratio of medians to node -e 0`);
for (const [name, values] of Object.entries(times)) {
  const [low, middle, high] = [0.25, 0.5, 0.75].map((share) => at(values, share));
  console.log(
    `${name.padEnd(46)} ${middle.toFixed(0).padStart(5)} (${low.toFixed(0)} … ${high.toFixed(0)})  ${(middle / base).toFixed(2)}`,
  );
}
