import { readFileSync, readdirSync } from 'node:fs';
import { join, posix } from 'node:path';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';

/** What a layer may import: other layers, packages, and whether it may touch the world outside its arguments. */
const layers: Readonly<Record<string, { layers: readonly string[]; packages: readonly string[]; pure: boolean }>> = {
  units: { layers: [], packages: ['mathjs'], pure: true },
  physics: { layers: ['units'], packages: [], pure: true },
  source: { layers: [], packages: ['yaml'], pure: true },
  parts: { layers: ['source', 'units'], packages: ['yaml', 'ajv'], pure: true },
  project: { layers: ['parts', 'source', 'units'], packages: ['yaml', 'ajv'], pure: true },
  driver: { layers: ['physics', 'project', 'parts', 'units'], packages: [], pure: true },
  checks: { layers: ['driver', 'physics', 'project', 'parts', 'source', 'units'], packages: [], pure: true },
  studies: { layers: ['checks', 'driver', 'physics', 'project', 'parts', 'source', 'units'], packages: [], pure: true },
  report: { layers: ['studies', 'checks', 'driver', 'parts', 'source', 'units'], packages: ['chalk'], pure: true },
  cli: {
    layers: ['studies', 'report', 'checks', 'driver', 'project', 'parts', 'source', 'units'],
    packages: ['@oclif/core', 'node'],
    pure: false,
  },
  commands: { layers: ['cli', 'studies', 'report', 'checks', 'source'], packages: ['@oclif/core'], pure: false },
};

/** The entry point, the only file directly in src. */
const entry = { file: 'bin.ts', layers: ['cli'], packages: ['@oclif/core'] };

const longest = 250;
const root = join(import.meta.dirname, '..', 'src');
const files = readdirSync(root, { recursive: true, encoding: 'utf8' })
  .map((path) => path.replaceAll('\\', '/'))
  .filter((path) => /\.[jt]s$/.test(path) && !/\.generated\.(js|d\.ts)$/.test(path));

function importsOf(file: string): readonly string[] {
  const { importedFiles } = ts.preProcessFile(readFileSync(join(root, file), 'utf8'), true, true);
  return importedFiles.map(({ fileName }) => fileName);
}

/** Layer of a relative import, or the package of any other. */
function targetOf({ file, specifier }: { file: string; specifier: string }): { layer?: string; package?: string } {
  if (specifier.startsWith('.')) return { layer: posix.join(posix.dirname(file), specifier).split('/')[0]! };
  if (specifier.startsWith('node:')) return { package: 'node' };
  const parts = specifier.split('/');
  return { package: specifier.startsWith('@') ? parts.slice(0, 2).join('/') : parts[0]! };
}

test('every folder of src is a layer of the table, and only the entry point lies outside', () => {
  const tops = [...new Set(files.map((file) => file.split('/')[0]!))].toSorted();
  expect(tops).toEqual([...Object.keys(layers), entry.file].toSorted());
});

test('names that say nothing do not exist', () => {
  expect(files.filter((file) => /(^|\/)(utils?|helpers?|common|lib|misc|index)(\/|\.[jt]s$)/.test(file))).toEqual([]);
});

describe.each(files)('%s', (file) => {
  const layer = file.split('/')[0]!;
  const allowed = layers[layer] ?? entry;
  const text = readFileSync(join(root, file), 'utf8');

  test('imports only what its layer may', () => {
    const wrong = importsOf(file).filter((specifier) => {
      if (/^\.\.\/\.\.\/shared\/[a-z.]+\.json$/.test(specifier)) return false; // schemas are data that the engine shares with editors
      const target = targetOf({ file, specifier });
      if (target.layer !== undefined) return target.layer !== layer && !allowed.layers.includes(target.layer);
      return !allowed.packages.includes(target.package!);
    });
    expect(wrong).toEqual([]);
  });

  test(`has at most ${longest} lines`, () => {
    expect(text.split('\n').length).toBeLessThanOrEqual(longest);
  });

  test('reaches for nothing outside its arguments if its layer is pure', () => {
    if (!layers[layer]?.pure) return;
    const code = text.replaceAll(/\/\*[\s\S]*?\*\/|\/\/[^\n]*/g, '');
    expect(code.match(/\bprocess\.|\bconsole\.|\bDate\b|Math\.random|\bfetch\(|performance\.|setTimeout/g)).toBeNull();
  });

  test('never ends the process and has no loophole for compiler or lint', () => {
    expect(text.match(/process\.exit\(|@ts-(ignore|expect-error|nocheck)|eslint-disable|\bas any\b/g)).toBeNull();
  });
});

test('only commands, the base command and the entry set the exit status', () => {
  const setting = files.filter((file) => readFileSync(join(root, file), 'utf8').includes('process.exitCode ='));
  expect(setting.every((file) => file === entry.file || file.startsWith('cli/') || file.startsWith('commands/'))).toBe(true);
});

test('a check never imports another check', () => {
  const own = files.filter(
    (file) => file.startsWith('checks/') && readFileSync(join(root, file), 'utf8').includes('defineCheck(') && file !== 'checks/check.ts',
  );
  const names = own.map((file) => posix.basename(file));
  const wrong = own.flatMap((file) =>
    importsOf(file).filter((specifier) => specifier.startsWith('./') && names.includes(posix.basename(specifier))),
  );
  expect(own.length).toBeGreaterThan(0);
  expect(wrong).toEqual([]);
});
