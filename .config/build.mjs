// Builds dist: validators from the JSON Schemas, one bundle per command with shared chunks, the command manifest, and the licences of what is bundled.
import { build } from 'esbuild';
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
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
const { metafile } = await build({
  absWorkingDir: root,
  entryPoints: [
    { in: 'src/bin.ts', out: 'bin' },
    { in: 'src/cli/command-not-found.ts', out: 'hooks/command-not-found' },
    ...commands.map((name) => ({ in: `src/commands/${name}`, out: `commands/${name.slice(0, -3)}` })),
  ],
  outdir: 'dist',
  bundle: true,
  splitting: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  minifySyntax: true,
  minifyWhitespace: true,
  legalComments: 'none',
  external: ['typescript', 'tsx', 'ts-node'],
  plugins: [unused],
  // the same package as ES modules: what is not used falls away
  alias: { yaml: join(root, 'node_modules/yaml/browser/index.js') },
  banner: { js: "import{createRequire as __createRequire}from'node:module';const require=__createRequire(import.meta.url);" },
  metafile: true,
  logLevel: 'warning',
});
await compileData();
writeFileSync(join(dist, 'bundled-licences.txt'), bundledLicences(Object.keys(metafile.inputs)));
execFileSync(process.execPath, [join(root, 'node_modules/oclif/bin/run.js'), 'manifest', root], {
  cwd: root,
  env: { ...process.env, OCLIF_SKIP_NEW_VERSION_CHECK: '1' },
  stdio: ['ignore', 'ignore', 'inherit'],
});

/** Reads parts-db and the default policy with the tool's own readers, so that a start need not. */
async function compileData() {
  const folder = mkdtempSync(join(tmpdir(), 'tankproof-build-'));
  const script = join(folder, 'compile.mjs');
  await build({
    absWorkingDir: root,
    stdin: {
      contents: `
        import { readFileSync } from 'node:fs';
        import { writeCompiled } from './src/cli/compiled.ts';
        import { partsInFolders } from './src/cli/parts-folders.ts';
        export function compile(root) {
          const path = root + '/shared/limits.yaml';
          writeCompiled({ root, library: partsInFolders({ root, projectPath: root, folders: [] }), limits: { path: 'shared/limits.yaml', text: readFileSync(path, 'utf8') } });
        }`,
      resolveDir: root,
      loader: 'ts',
    },
    outfile: script,
    bundle: true,
    platform: 'node',
    format: 'esm',
    banner: { js: "import{createRequire as __createRequire}from'node:module';const require=__createRequire(import.meta.url);" },
    logLevel: 'warning',
  });
  const { compile } = await import(pathToFileURL(script).href);
  compile(root);
  rmSync(folder, { recursive: true });
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
