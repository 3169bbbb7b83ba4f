// Packs the tool, installs the archive into an empty folder and checks a project from there: what is missing in the archive shows here.
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const work = process.argv[2];
if (work === undefined) throw new Error('name an empty folder');
const prefix = join(work, 'prefix');
const elsewhere = join(work, 'elsewhere');
mkdirSync(prefix, { recursive: true });
mkdirSync(elsewhere);

function ran(command, args, { cwd, status = 0 }) {
  const result = spawnSync(command, args, { cwd, encoding: 'utf8' });
  if (result.status !== status) {
    throw new Error(`${command} ${args.join(' ')} ended with ${result.status}, not ${status}\n${result.stdout}\n${result.stderr}`);
  }
  return result.stdout;
}

const [{ filename }] = JSON.parse(ran('npm', ['pack', '--json', '--pack-destination', work], { cwd: root }));
ran('npm', ['install', '--prefix', prefix, '--no-audit', '--no-fund', join(work, filename)], { cwd: work });
const tool = join(prefix, 'node_modules', '.bin', 'tankproof');
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
copyFileSync(join(root, 'examples', 'charging-pad.yaml'), join(elsewhere, 'pad.yaml'));

const report = ran(tool, ['check', 'pad.yaml'], { cwd: elsewhere });
if (!/^0 failed, 0 not assessed, 0 warned, \d+ passed: pass$/m.test(report))
  throw new Error(`not the report of a passing design:\n${report}`);
const document = JSON.parse(ran(tool, ['check', 'pad.yaml', '--json'], { cwd: elsewhere }));
if (document.tankproof.version !== version) throw new Error(`the installed tool is ${document.tankproof.version}, not ${version}`);
ran(tool, ['check', 'missing.yaml'], { cwd: elsewhere, status: 2 });
ran(tool, ['explain', 'latch-up'], { cwd: elsewhere });
process.stdout.write(`installed tankproof ${version} from ${filename} and checked a project with it\n`);
