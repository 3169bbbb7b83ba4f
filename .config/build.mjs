// Builds dist: validators from the JSON Schemas, one script of everything with its compiled code, the command manifest, and the licences of what is bundled.
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildTool, builtTool, warmTool } from './tool.mjs';
import { writeValidators } from './validators.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const dist = join(root, 'dist');

await writeValidators();
rmSync(dist, { recursive: true, force: true });
const { inputs } = await buildTool({ root });
compile(builtTool({ root }).engine);
writeFileSync(join(dist, 'bundled-licences.txt'), bundledLicences(Object.keys(inputs)));
execFileSync(process.execPath, [join(root, 'node_modules/oclif/bin/run.js'), 'manifest', root], {
  cwd: root,
  env: { ...process.env, OCLIF_SKIP_NEW_VERSION_CHECK: '1' },
  stdio: ['ignore', 'ignore', 'inherit'],
});
// the examples reviewed, so that the code for it is compiled
const examples = readdirSync(join(root, 'examples')).filter((file) => file.endsWith('.yaml'));
warmTool({ root, args: ['check', '--all', '--color', 'always', ...examples.map((name) => join('examples', name))] });

/** Has the tool read parts-db and the default policy, so that a start need not. */
function compile(engine) {
  const limits = { path: 'shared/limits.yaml', text: readFileSync(join(root, 'shared', 'limits.yaml'), 'utf8') };
  engine.writeCompiled({ root, library: engine.partsInFolders({ root, projectPath: root, folders: [] }), limits });
}

/** Licence texts of the packages that ended up in the bundle. */
function bundledLicences(inputs) {
  const packages = new Set();
  for (const input of inputs) {
    const name = /.*node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(input)?.[0];
    if (name !== undefined) packages.add(name);
  }
  return [...packages]
    .sort()
    .map((folder) => {
      const { name, version, license } = JSON.parse(readFileSync(join(root, folder, 'package.json'), 'utf8'));
      const file = readdirSync(join(root, folder)).find((entry) => /^licen[cs]e/i.test(entry));
      const text = file !== undefined && existsSync(join(root, folder, file)) ? readFileSync(join(root, folder, file), 'utf8') : '';
      return `${name} ${version} (${license})\n\n${text.trim()}\n`;
    })
    .join(`\n${'-'.repeat(80)}\n\n`);
}
