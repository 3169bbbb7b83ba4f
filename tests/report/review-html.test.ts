import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { escaped } from '../../src/report/page-html.ts';
import { drawnPartOf } from '../../src/report/review-html/circuit-parts.ts';
import { shareOfLimit } from '../../src/report/review-html/limit-share.ts';
import { reviewStyle } from '../../src/report/review-html/style.ts';
import { shortList } from '../../src/report/review-html/short-list.ts';
import { explained } from '../../src/checks/registry.ts';
import { waivedResults } from '../../src/checks/waiver.ts';
import { isReviewed, type Reviewed } from '../../src/report/reviewed.ts';
import { join } from 'node:path';
import { fileWith, root } from '../cli/ran.ts';
import { hostileFile, pageOf, reviewedAt, reviewedExample } from './review-pages.ts';

const names = readdirSync(join(root, 'examples')).flatMap((name) => (name.endsWith('.yaml') ? [name.replace('.yaml', '')] : []));
const pages = new Map(names.map((name) => [name, pageOf([reviewedExample(name)])]));
const lamp = pages.get('live-rail-lamp')!;
const all = (text: string, pattern: RegExp): readonly string[] => [...text.matchAll(pattern)].map((found) => found[1] ?? found[0]);

describe.each(names)('the page of %s', (name) => {
  const page = pages.get(name)!;

  test('has one title of the first rank, and ranks that skip none', () => {
    const ranks = all(page, /<h([1-6])[ >]/g).map(Number);
    expect(ranks.filter((rank) => rank === 1)).toHaveLength(1);
    ranks.forEach((rank, i) => {
      expect(rank - (ranks[i - 1] ?? 0)).toBeLessThanOrEqual(1);
    });
  });

  test('names every id once, and every link leads to one', () => {
    const ids = all(page, / id="([^"]+)"/g);
    expect(new Set(ids).size).toBe(ids.length);
    expect(all(page, /href="#([^"]+)"/g).filter((id) => !ids.includes(id))).toEqual([]);
    expect(all(page, /aria-labelledby="([^"]+)"/g).filter((id) => !ids.includes(id))).toEqual([]);
  });

  test('has a caption and headers on every table', () => {
    const tables = page.split('<table').slice(1);
    expect(tables.length).toBeGreaterThan(30);
    expect(tables.filter((table) => !/^[^>]*><caption>/.test(table) || !table.includes('<th scope="'))).toEqual([]);
  });

  test('refers to nothing outside itself and runs nothing but its own script', () => {
    expect(page.match(/https?:|\ssrc=|url\(|@import|<link|<iframe|<object|<form|\sstyle=|\son[a-z]+=/gi)).toBeNull();
    const [script] = /<script>([^]*?)<\/script>/.exec(page)!.slice(1);
    const digest = createHash('sha256').update(script!).digest('base64');
    expect(page).toContain(`default-src 'none'; script-src 'sha256-${digest}'; style-src 'sha256-`);
    expect(page).not.toContain('unsafe-inline');
  });

  test('stays below 400 kB', () => {
    expect(page.length).toBeLessThan(400_000);
  });

  test('says every reason, remedy and place as the terminal does', () => {
    const reviewed = reviewedExample(name);
    if (!isReviewed(reviewed)) throw new Error('an example is refused');
    for (const { id, reason, remedy, at, basis } of reviewed.report.results) {
      const said = [...(reason === undefined ? [] : [reason]), ...(remedy === undefined ? [] : [remedy]), ...basis];
      for (const words of said) expect(page, id).toContain(escaped(words));
      expect(page, id).toContain(escaped(`${at.path}:${at.line}:${at.column}`));
    }
    for (const words of [...reviewed.report.cautions, ...reviewed.report.assumptions]) expect(page).toContain(escaped(words));
  });

  test('gives formula and source of every check that it has', () => {
    const reviewed = reviewedExample(name);
    if (!isReviewed(reviewed)) throw new Error('an example is refused');
    for (const { id } of reviewed.report.results) {
      const { docs } = explained.find((one) => one.id === id)!;
      const table = page.slice(page.indexOf(`<table class="check" id="${id}"`)).split('</table>')[0]!;
      expect(table, id).toContain(escaped(docs.formula));
      expect(table, id).toContain(escaped(docs.source));
    }
  });
});

describe('a page', () => {
  test('is the same for the same input', () => {
    expect(pageOf([reviewedExample('live-rail-lamp')])).toBe(lamp);
  });

  test('begins as a file of ours, so that the next run replaces it', () => {
    expect(lamp).toMatch(/^<!DOCTYPE html>\s*<html[^>]*>\s*<head>[^]{0,200}<meta name="generator" content="tankproof 0\.0\.0">/);
  });

  test('names the version and the data of the parts by a hash that changes with them', () => {
    const hash = (page: string): string => /SHA-256 <code>([0-9a-f]{64})<\/code>/.exec(page)![1]!;
    expect(lamp).toContain('Reviewed with tankproof 0.0.0');
    const read = (change: string): string => pageOf([reviewedAt(fileWith(project(change)))]);
    expect(hash(read('title: other'))).toBe(hash(read('title: one')));
    expect(hash(read('title: one'))).not.toBe(hash(pages.get('charging-pad')!));
  });

  test('of some checks says beside the verdict which, and never that every check passes', () => {
    const only = ['gate-peak-voltage', 'loaded-q'];
    const some = ['barn-charger', 'charging-pad'].map((name) => reviewedExample(name, { only }));
    const sentence = 'Only these checks were made: gate-peak-voltage, loaded-q; nothing is said of the others.';
    const [one, several] = [pageOf(some.slice(0, 1)), pageOf(some)];
    expect(one).toMatch(new RegExp(`<p class="summary pass">.*\\n<p class="only"><strong>${sentence}</strong></p>`));
    // in the overview, and in the section of each
    expect(several.split(sentence)).toHaveLength(4);
    expect(several.indexOf(sentence)).toBeLessThan(several.indexOf('Overview of the projects'));
    for (const page of [one, several]) {
      expect(page).not.toMatch(/every check passes|every check at/i);
      expect(page).toContain('<p>The checks that were made pass.</p>');
      expect(page).toContain('also those that were not asked for');
    }
    expect(pages.get('charging-pad')).not.toMatch(/only these|not asked for/i);
  });

  test('of checks that a project has no part for says that none was made', () => {
    const page = pageOf([reviewedAt(fileWith(project('title: bare')), { only: ['clamp-power'] })]);
    expect(page).toMatch(/<p class="summary open">.*0 failed, 0 not assessed, 0 warned, 0 passed/);
    expect(page).toContain('No check was made: this project has no part for those that were asked for.');
    expect(page).toContain('Only these checks were made: clamp-power; nothing is said of the others.');
  });

  test('says the notes of the run once, of one file, of several, of one that could not be reviewed', () => {
    const notes = ['skipped a file without a key tankproof: <b>.yaml'];
    const said = '<p class="note">note: skipped a file without a key tankproof: &lt;b&gt;.yaml</p>';
    const [good, bad] = [reviewedExample('live-rail-lamp'), reviewedAt('no-such-file.yaml')];
    for (const reviewed of [[good], [bad], [good, bad]]) expect(pageOf(reviewed, notes).split(said)).toHaveLength(2);
  });

  test('tells a waiver at its result, in the table of the check, in the summary and in the overview', () => {
    const heater = reviewedExample('bolt-heater');
    if (!isReviewed(heater)) throw new Error('an example is refused');
    const waived = (expires: string): Reviewed => {
      const at = { path: 'team.yaml', line: 3, column: 5, offset: 0, length: 1 };
      const waivers = [{ id: 'hot-surface', file: '*', reason: 'a <guard> covers it', expires, at }];
      const results = waivedResults({ results: heater.report.results, waivers, today: '2027-03-31' });
      return { ...heater, report: { ...heater.report, results } };
    };
    const page = pageOf([waived('2027-12-31')]);
    expect(page.split('waived until 2027-12-31: a &lt;guard&gt; covers it (team.yaml:3:5)')).toHaveLength(3);
    expect(page).toMatch(/<p class="summary fail">.*6 failed, [^<]*\(1 waived\)/);
    const old = pageOf([waived('2027-03-30')]);
    expect(old.split('its waiver expired on 2027-03-30: a &lt;guard&gt; covers it')).toHaveLength(3);
    expect(old).not.toContain('1 waived');
    expect(pageOf([waived('2027-12-31'), heater])).toMatch(/<td>6 failed, [^<]* passed \(1 waived\)<\/td>/);
  });

  test('in closed form says that waveforms were not computed and that no start passes', () => {
    expect(lamp).toContain('Not computed: the time domain was left out');
    expect(lamp).toContain('closed form only: no start passes');
    expect(lamp).not.toContain('<polyline');
  });

  test('with the time domain draws the start and its last periods', () => {
    const page = pageOf([reviewedExample('bindery-lamp', { closedForm: false })]);
    expect(page).toContain('<polyline');
    expect(page).toContain('Switch-on with lamp away: it latches');
    expect(page.length).toBeLessThan(400_000);
  });

  test('says where it leaves out a stretch of a slow rail, and what time it is behind it', () => {
    const page = pageOf([reviewedExample('charging-pad', { closedForm: false })]);
    expect(page).toMatch(/At the broken line 1\.\d ms are left out in which the rail only creeps up\./);
    const [drawing] = page.slice(page.indexOf('id="switch-on-title"')).split('</svg>');
    // a rail of 3 ms: the drawing is shorter, its last mark is not
    expect(drawing).toContain('class="gap"');
    expect(
      all(drawing!, />([\d.]+) ms</g)
        .map(Number)
        .at(-1),
    ).toBeGreaterThan(3);
  });

  test('holds what a project says of itself as text', () => {
    const page = pageOf([reviewedAt(hostileFile())]);
    expect(page).toContain('&lt;img src=x onerror=');
    expect(page).not.toMatch(/<img|<script>window/);
    // the script that moves the bars, and its data
    expect(all(page, /<script[ >]/g)).toHaveLength(2);
    expect(all(page, /<\/script>/g)).toHaveLength(2);
  });

  test('shows no clamp where there is none, and its checks at the pull-ups', () => {
    const page = pageOf([reviewedAt(hostileFile())]);
    expect(page).not.toContain('clamps</th>');
    expect(page).toContain('3 pull-ups</th>');
  });
});

describe('several files in one page', () => {
  const refused = fileWith('tankproof: 1\ntitle: <b>bold</b>\nsupply: {voltage: 12}\n');
  const page = pageOf([reviewedExample('charging-pad'), reviewedAt(refused), reviewedExample('bolt-heater')]);

  test('begin with a table that leads to each', () => {
    const overview = page.slice(page.indexOf('id="overview"')).split('</table>')[0]!;
    expect(all(overview, /href="#(p\d)"/g)).toEqual(['p1', 'p2', 'p3']);
    expect(overview).toContain('could not run');
    expect(overview).toContain('>fail<');
  });

  test('name every id once', () => {
    const ids = all(page, / id="([^"]+)"/g);
    expect(new Set(ids).size).toBe(ids.length);
    expect(all(page, /href="#([^"]+)"/g).filter((id) => !ids.includes(id))).toEqual([]);
  });

  test('say why one could not be read', () => {
    expect(page).toContain('[');
    expect(page).toMatch(/help: [^<]+/);
    expect(page).toContain(escaped(`${refused}:3:`));
  });
});

describe('a share of a limit', () => {
  const share = (value: number | null, limit: number | null, dimension: 'voltage' | 'temperature', sense: 'at-most' | 'at-least') =>
    shareOfLimit({ value, limit, dimension, sense });

  test('is one at the limit, for either sense', () => {
    expect(share(200, 200, 'voltage', 'at-most')).toBe(1);
    expect(share(10, 10, 'voltage', 'at-least')).toBe(1);
    expect(share(423.15, 423.15, 'temperature', 'at-most')).toBe(1);
  });

  test('passes one exactly where the limit is past', () => {
    expect(share(200.1, 200, 'voltage', 'at-most')).toBeGreaterThan(1);
    expect(share(9.9, 10, 'voltage', 'at-least')).toBeGreaterThan(1);
    expect(share(199.9, 200, 'voltage', 'at-most')).toBeLessThan(1);
    expect(share(10.1, 10, 'voltage', 'at-least')).toBeLessThan(1);
  });

  test('counts a temperature from the freezing point', () => {
    expect(share(273.15 + 30, 273.15 + 150, 'temperature', 'at-most')).toBeCloseTo(0.2, 12);
    expect(share(250, 423.15, 'temperature', 'at-most')).toBe(0);
  });

  test('has no bound where nothing is there of what is needed, and is not drawn without a limit', () => {
    expect(share(0, 10, 'voltage', 'at-least')).toBe(Infinity);
    expect(share(-1, 10, 'voltage', 'at-least')).toBe(Infinity);
    expect(share(5, 0, 'voltage', 'at-most')).toBeUndefined();
    expect(share(null, 10, 'voltage', 'at-most')).toBeUndefined();
    expect(share(5, null, 'voltage', 'at-most')).toBeUndefined();
  });
});

test('every check but those of people has a place in the drawing', () => {
  expect(explained.filter((check) => (drawnPartOf(check) === undefined) !== (check.part === 'people'))).toEqual([]);
});

describe.each([
  ['on paper', 0],
  ['at night', 1],
] as const)('the colours %s', (_name, index) => {
  const palette = [...reviewStyle.matchAll(/:root \{[^}]*\}/g)][index]![0];
  const colour = (name: string): string => new RegExp(`--${name}: (#[0-9a-f]{6})`).exec(palette)![1]!;

  test.each([
    ...['ink', 'quiet', 'link', 'pass', 'warn', 'fail', 'open'].flatMap((text) => [
      [text, 'paper'],
      [text, 'panel'],
    ]),
    ...['pass', 'warn', 'fail', 'open'].flatMap((verdict) => [
      [verdict, `${verdict}-tint`],
      ['ink', `${verdict}-tint`],
    ]),
    ['ink', 'window'],
  ])('%s on %s has a contrast of 4.5 to 1', (text, ground) => {
    expect(contrast(colour(text), colour(ground))).toBeGreaterThanOrEqual(4.5);
  });
});

/** Of two colours, from their relative luminances: WCAG 2.2, definitions of contrast ratio and relative luminance (from memory). */
function contrast(one: string, other: string): number {
  const luminance = (colour: string): number => {
    const [red, green, blue] = [1, 3, 5].map((at) => {
      const part = parseInt(colour.slice(at, at + 2), 16) / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
  };
  const [light, dark] = [luminance(one), luminance(other)].toSorted((a, b) => b - a);
  return (light! + 0.05) / (dark! + 0.05);
}

test('black on white has a contrast of 21 to 1', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9);
});

test('a long list is told in part and counted', () => {
  expect(shortList(['a', 'b', 'c', 'd', 'e', 'f', 'g'])).toBe('a, b, c, d, e, f, g');
  expect(shortList(['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'])).toBe('a, b, c, d, e, f and 2 more');
});

function project(title: string): string {
  return `tankproof: 1
${title}
supply: {voltage: 15 V}
chokes: {arrangement: two, part: choke-100u-10a-sendust}
tank:
  coil: {inductance: 1.8 uH, resistance: 6 mohm}
  bank: {part: pp-foil-100n-1000v, parallel: 12}
switches: {part: IRFP250N, heatsink: 5 K/W}
gates: {pullUp: {resistance: 470 ohm, from: 12 V}, crossDiode: UF4004}
`;
}
