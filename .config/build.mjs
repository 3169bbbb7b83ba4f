// Builds dist: validators from the JSON Schemas, one bundle per command with shared chunks, the command manifest, and the licences of what is bundled.
import { build } from 'esbuild';
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildEngine, engineLoader, warmEngine } from './engine.mjs';
import { writeValidators } from './validators.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const dist = join(root, 'dist');

/** Packages that @oclif/core needs only without a manifest or with plugins: neither happens here. */
const unused = {
  name: 'unused-packages',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^(tinyglobby|minimatch)$/ }, ({ path }) => ({ path, namespace: 'unused' }));
    onLoad({ filter: /.*/, namespace: 'unused' }, ({ path }) => ({
      contents: `module.exports = new Proxy({}, { get(_, key) { if (key === '__esModule') return false; throw new Error('${path} is not bundled'); } });`,
      loader: 'js',
    }));
  },
};

await writeValidators();
rmSync(dist, { recursive: true, force: true });
const commands = readdirSync(join(root, 'src/commands')).filter((name) => name.endsWith('.ts'));
const options = {
  bundle: true,
  platform: 'node',
  target: 'node20',
  minifySyntax: true,
  minifyWhitespace: true,
  legalComments: 'none',
  // the same package as ES modules: what is not used falls away
  alias: { yaml: join(root, 'node_modules/yaml/browser/index.js') },
  logLevel: 'warning',
};
const { metafile } = await build({
  ...options,
  absWorkingDir: root,
  entryPoints: [
    { in: 'src/bin.ts', out: 'bin' },
    { in: 'src/cli/command-not-found.ts', out: 'hooks/command-not-found' },
    ...commands.map((name) => ({ in: `src/commands/${name}`, out: `commands/${name.slice(0, -3)}` })),
  ],
  outdir: 'dist',
  splitting: true,
  format: 'esm',
  external: ['typescript', 'tsx', 'ts-node'],
  plugins: [unused, engineLoader],
  banner: { js: "import{createRequire as __createRequire}from'node:module';const require=__createRequire(import.meta.url);" },
  metafile: true,
});
const engine = await buildEngine({ root, options });
warmEngine({ root, work: compileAndReview });
writeFileSync(join(dist, 'bundled-licences.txt'), bundledLicences([...Object.keys(metafile.inputs), ...Object.keys(engine.inputs)]));
execFileSync(process.execPath, [join(root, 'node_modules/oclif/bin/run.js'), 'manifest', root], {
  cwd: root,
  env: { ...process.env, OCLIF_SKIP_NEW_VERSION_CHECK: '1' },
  stdio: ['ignore', 'ignore', 'inherit'],
});

/**
 * Has the engine read parts-db and the default policy, so that a start need not, and review the examples, so that the code for it is
 * compiled.
 */
function compileAndReview(engine) {
  const limits = { path: 'shared/limits.yaml', text: readFileSync(join(root, 'shared', 'limits.yaml'), 'utf8') };
  engine.writeCompiled({ root, library: engine.partsInFolders({ root, projectPath: root, folders: [] }), limits });
  const policies = engine.defaultPolicies(root);
  for (const name of readdirSync(join(root, 'examples')).filter((file) => file.endsWith('.yaml'))) {
    const report = engine.reviewedFile({ path: join(root, 'examples', name), root, policies });
    engine.terminalReport({ report, style: { width: 80, colourLevel: 1, all: true } });
    engine.jsonReport({ report, version: '' });
  }
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
