// `npm start`: builds if dist is missing or older than its sources, then checks an example (or runs the arguments given after `--`).
import { spawnSync } from 'node:child_process';
import { readdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const bin = join(root, 'dist', 'bin.js');

function newest(folder) {
  return Math.max(
    ...readdirSync(folder, { withFileTypes: true }).map((entry) => {
      const path = join(folder, entry.name);
      if (entry.name.includes('.generated.')) return 0;
      return entry.isDirectory() ? newest(path) : statSync(path).mtimeMs;
    }),
  );
}

const built = statSync(bin, { throwIfNoEntry: false })?.mtimeMs ?? 0;
if (built < Math.max(...['src', 'shared', 'parts-db', '.config'].map((folder) => newest(join(root, folder))))) {
  process.stderr.write('building …\n');
  const { status } = spawnSync(process.execPath, [join(root, '.config', 'build.mjs')], { stdio: 'inherit' });
  if (status !== 0) process.exit(status ?? 1);
}
const given = process.argv.slice(2);
const { status } = spawnSync(process.execPath, [bin, ...(given.length > 0 ? given : ['check', 'examples/charging-pad.yaml'])], {
  cwd: root,
  stdio: 'inherit',
});
process.exit(status ?? 70);
