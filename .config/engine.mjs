// The engine as one script with its compiled code beside it, and how the commands load it.
import { build } from 'esbuild';
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import vm from 'node:vm';

/** The script is one function; the same text must be compiled where the code cache is made and where it is used. */
const wrapped = (source) => `(function(exports,require,module){${source}\n})`;

/** Bundles src/cli/engine.ts to dist/engine.cjs and returns what esbuild knows of it. */
export async function buildEngine({ root, options }) {
  const { metafile } = await build({
    ...options,
    absWorkingDir: root,
    entryPoints: ['src/cli/engine.ts'],
    outfile: 'dist/engine.cjs',
    format: 'cjs',
    metafile: true,
  });
  return metafile;
}

/** Loads the engine, has it work, and writes the code that was compiled on the way to dist/engine.cache. */
export function warmEngine({ root, work }) {
  const path = join(root, 'dist', 'engine.cjs');
  const script = new vm.Script(wrapped(readFileSync(path, 'latin1')), { filename: path });
  const module = { exports: {} };
  script.runInThisContext()(module.exports, createRequire(path), module);
  work(module.exports);
  writeFileSync(join(root, 'dist', 'engine.cache'), script.createCachedData());
}

/**
 * Lets `import … from './engine.ts'` load dist/engine.cjs. V8 refuses a code cache of another version of itself; the script is then
 * compiled as any other.
 */
export const engineLoader = {
  name: 'engine',
  setup({ onLoad }) {
    onLoad({ filter: /src[\\/]cli[\\/]engine\.ts$/ }, ({ path }) => {
      const names = [...readFileSync(path, 'utf8').matchAll(/^export \{ (.+) \} from/gm)].flatMap(([, list]) => list.split(', '));
      return {
        loader: 'js',
        contents: `
          import { existsSync, readFileSync } from 'node:fs';
          import { createRequire } from 'node:module';
          import { fileURLToPath } from 'node:url';
          import vm from 'node:vm';
          const beside = (name) => [new URL('./' + name, import.meta.url), new URL('../' + name, import.meta.url)].map((url) => fileURLToPath(url)).find((path) => existsSync(path));
          const filename = beside('engine.cjs');
          const cache = beside('engine.cache');
          const source = readFileSync(filename, 'latin1');
          const script = new vm.Script('(function(exports,require,module){' + source + '\\n})', { filename, cachedData: cache && readFileSync(cache) });
          const module = { exports: {} };
          script.runInThisContext()(module.exports, createRequire(import.meta.url), module);
          export const { ${names.join(', ')} } = module.exports;`,
      };
    });
  },
};
