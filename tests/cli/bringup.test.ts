import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { emptyFolder, ran, root } from './ran.ts';
import { validator } from './schemas.ts';

const expectValid = validator('bringup.schema.json');
const golden = join(root, 'tests', 'report', 'cards');

function expectAsBefore(file: string, text: string): void {
  const path = join(golden, file);
  if (process.env['UPDATE_GOLDEN'] === '1') {
    mkdirSync(golden, { recursive: true });
    writeFileSync(path, text);
  }
  expect(text).toBe(readFileSync(path, 'utf8'));
}

describe('bringup', () => {
  test.each([
    ['charging-pad', 0],
    ['barn-charger', 1],
  ])('%s reads as it did, as text of 80 columns, Markdown and HTML', async (name, expected) => {
    const { status, stdout } = await ran(['bringup', `examples/${name}.yaml`]);
    expect(status).toBe(expected);
    expectAsBefore(`${name}.txt`, stdout);
    expect(stdout.split('\n').filter((line) => line.length > 80)).toEqual([]);
    const paths = ['html', 'md', 'txt'].map((ending) => join(emptyFolder(), `card.${ending}`));
    writeFileSync(paths[0]!, 'an older card');
    const written = await ran(['bringup', `examples/${name}.yaml`, '--force', ...paths.flatMap((path) => ['-o', path])]);
    expect(written.status).toBe(expected);
    expect(written.stdout).toContain(`wrote ${paths[0]!}`);
    ['html', 'md'].forEach((ending, i) => expectAsBefore(`${name}.${ending}`, readFileSync(paths[i]!, 'utf8')));
    expect(readFileSync(paths[2]!, 'utf8')).toMatch(/^First power-up/);
  });

  test.each(['charging-pad', 'bindery-lamp', 'vent-opener', 'scrap-box-smelter'])('%s as JSON satisfies the schema', async (name) => {
    const { status, stdout } = await ran(['bringup', `examples/${name}.yaml`, '--json']);
    const document = JSON.parse(stdout) as { mayPowerUp: boolean };
    expectValid(document);
    expect(status).toBe(document.mayPowerUp ? 0 : 1);
  });

  test('a driver that latches is not to be powered up, and the card begins with that', async () => {
    const { stdout } = await ran(['bringup', 'examples/bindery-lamp.yaml']);
    expect(stdout.split('\n').slice(0, 6).join(' ')).toContain('DO NOT POWER UP');
    expect(stdout).toContain('latch-up');
  });

  test.each([
    [['-o', 'card.pdf'], 'none of the endings .html, .md, .txt'],
    [['-o', '/nowhere/card.md'], 'folder does not exist'],
    [['--shares', '40 %'], 'Nonexistent flag'],
  ])('%j is refused with status 2', async (args, words) => {
    const { status, stderr, stdout } = await ran(['bringup', 'examples/charging-pad.yaml', ...args]);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr.replaceAll(/\s+/g, ' ').toLowerCase()).toContain(words.toLowerCase());
  });

  test('a card that is there is not written over without --force', async () => {
    const path = join(emptyFolder(), 'card.txt');
    writeFileSync(path, 'mine');
    const { status, stderr } = await ran(['bringup', 'examples/charging-pad.yaml', '-o', path]);
    expect(status).toBe(2);
    expect(stderr).toContain('exists already');
    expect(readFileSync(path, 'utf8')).toBe('mine');
  });
});

describe('the HTML card', () => {
  const card = (): string => readFileSync(join(golden, 'barn-charger.html'), 'utf8');

  test('needs nothing from elsewhere', () => {
    expect(card()).not.toMatch(/\b(src|href)=|url\(|@import|<script/);
  });

  test('has one first heading, headings of sections, captions and headers of tables', () => {
    const count = (pattern: RegExp): number => [...card().matchAll(pattern)].length;
    expect(count(/<h1>/g)).toBe(1);
    expect(count(/<h2>/g)).toBeGreaterThanOrEqual(6);
    expect(count(/<caption>/g)).toBe(count(/<table>/g));
    expect(count(/<th scope="row">/g)).toBe(count(/<tr><th scope="row">/g));
    expect(card()).toContain('<html lang="en">');
  });

  test('every pair of text and ground has a contrast of 4.5 or more (WCAG 2.1, 1.4.3)', () => {
    const pairs = [
      ['#1a1a1a', '#ffffff'],
      ['#1a1a1a', '#e6e6e6'],
      ['#ffffff', '#8f1414'],
    ] as const;
    const luminance = (colour: string): number => {
      const [r, g, b] = [1, 3, 5]
        .map((i) => parseInt(colour.slice(i, i + 2), 16) / 255)
        .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)) as [number, number, number];
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    for (const [a, b] of pairs) {
      const [light, dark] = [luminance(a), luminance(b)].toSorted((x, y) => y - x) as [number, number];
      expect((light + 0.05) / (dark + 0.05)).toBeGreaterThanOrEqual(4.5);
    }
    const used = [...card().matchAll(/(?<![\w-])(?:color|background): (#\w+)/g)].map(([, colour = '']) =>
      colour.replace(/^#(\w)(\w)(\w)$/, '#$1$1$2$2$3$3'),
    );
    expect([...new Set(used)].toSorted()).toEqual([...new Set(pairs.flat())].toSorted());
  });
});
