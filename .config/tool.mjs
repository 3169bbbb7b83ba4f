// The whole tool as one script with its compiled code beside it, and the files that load it.
import { build } from 'esbuild';
import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

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

/** Loads dist/tool.cjs with its code cache. V8 refuses a cache of another version of itself; the script is then compiled as any other. */
const loader = `'use strict';
const { readFileSync } = require('node:fs');
const { join } = require('node:path');
const { Script } = require('node:vm');
const filename = join(__dirname, 'tool.cjs');
let cachedData;
try {
  cachedData = readFileSync(join(__dirname, 'tool.cache'));
} catch {}
const script = new Script(readFileSync(filename, 'latin1'), { filename, cachedData });
script.runInThisContext()(exports, require, module);
`;

/** What the script holds, by the names under which the files of dist find it. */
const contents = (commands) => `
export { start } from './src/bin.ts';
export * as engine from './src/cli/engine.ts';
export { default as commandNotFound } from './src/cli/command-not-found.ts';
${commands.map((name, i) => `import command${i} from './src/commands/${name}.ts';`).join('\n')}
export const commands = { ${commands.map((name, i) => `'${name}': command${i}`).join(', ')} };
`;

/** Bundles everything to dist/tool.cjs, writes the files that load it, and returns what esbuild knows of it. */
export async function buildTool({ root }) {
  const dist = join(root, 'dist');
  const commands = readdirSync(join(root, 'src/commands')).map((name) => name.replace(/\.ts$/, ''));
  const { metafile } = await build({
    absWorkingDir: root,
    stdin: { contents: contents(commands), resolveDir: root, loader: 'js', sourcefile: 'tool.js' },
    outfile: 'dist/tool.cjs',
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'cjs',
    minifySyntax: true,
    minifyWhitespace: true,
    legalComments: 'none',
    // the same package as ES modules: what is not used falls away
    alias: { yaml: join(root, 'node_modules/yaml/browser/index.js') },
    // a script of node:vm has no import(): what is loaded late is required late
    supported: { 'dynamic-import': false },
    external: ['typescript', 'tsx', 'ts-node'],
    plugins: [unused],
    // a function of what a module is given, as Node.js wraps one: the code cache belongs to the text as it is
    banner: { js: '(function(exports,require,module){' },
    footer: { js: '})' },
    metafile: true,
    logLevel: 'warning',
  });
  // esbuild escapes all but what stands in a regular expression, and the script is read byte by byte
  const script = readFileSync(join(dist, 'tool.cjs'), 'utf8');
  const escaped = (char) => `\\u${char.charCodeAt(0).toString(16).padStart(4, '0')}`;
  writeFileSync(join(dist, 'tool.cjs'), script.replace(/[^\x00-\x7f]/g, escaped));
  for (const folder of ['commands', 'hooks']) mkdirSync(join(dist, folder));
  // CommonJS, which Node.js loads more quickly
  writeFileSync(join(dist, 'package.json'), '{"type":"commonjs"}\n');
  writeFileSync(join(dist, 'tool.js'), loader);
  writeFileSync(
    join(dist, 'bin.js'),
    "#!/usr/bin/env node\nvoid require('./tool.js').start({ root: require('node:path').join(__dirname, '..') });\n",
  );
  chmodSync(join(dist, 'bin.js'), 0o755);
  for (const name of commands)
    writeFileSync(join(dist, 'commands', `${name}.js`), `module.exports = require('../tool.js').commands['${name}'];\n`);
  writeFileSync(join(dist, 'hooks', 'command-not-found.js'), "module.exports = require('../tool.js').commandNotFound;\n");
  return metafile;
}

/** What the script holds, loaded from dist. */
export function builtTool({ root }) {
  return createRequire(import.meta.url)(join(root, 'dist', 'tool.js'));
}

/** Has the tool run a command line and writes the code that was compiled on the way to dist/tool.cache. */
export function warmTool({ root, args }) {
  const warm = `
    const vm = require('node:vm');
    // other threads compile for themselves
    require('node:os').availableParallelism = () => 1;
    let script;
    vm.Script = class extends vm.Script {
      constructor(...of) {
        super(...of);
        script = this;
      }
    };
    process.on('exit', () => {
      require('node:fs').writeFileSync(${JSON.stringify(join(root, 'dist', 'tool.cache'))}, script.createCachedData());
      process.exitCode = 0;
    });
    require(${JSON.stringify(join(root, 'dist', 'bin.js'))});`;
  execFileSync(process.execPath, ['--eval', warm, '--', 'tankproof', ...args], { cwd: root, stdio: ['ignore', 'ignore', 'inherit'] });
}
