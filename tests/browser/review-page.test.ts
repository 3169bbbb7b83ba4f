import type { Browser } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { fileWith } from '../cli/ran.ts';
import { hostileFile, pageOf, reviewedAt, reviewedExample } from '../report/review-pages.ts';
import { barriers, opened, startedBrowser } from './browser.ts';

let browser: Browser;
let paths: Readonly<Record<'timed' | 'several' | 'hostile' | 'some', string>>;

beforeAll(async () => {
  browser = await startedBrowser();
  const written = (text: string): string => fileWith(text, 'review.html');
  paths = {
    timed: written(pageOf([reviewedExample('live-rail-lamp', { closedForm: false })])),
    several: written(pageOf([reviewedExample('charging-pad'), reviewedAt('no-such-file.yaml'), reviewedExample('scrap-box-smelter')])),
    some: written(pageOf([reviewedExample('barn-charger', { only: ['gate-peak-voltage'] })], ['checked nothing but gate-peak-voltage'])),
    hostile: written(pageOf([reviewedAt(hostileFile())])),
  };
  return () => browser.close();
});

/** The use of a check as its bar shows it, in hundredths of the limit. */
const barOf = (id: string): string =>
  `Number(document.querySelector('th a[href="#${id}"]').closest('tr').querySelector('.use').getAttribute('width'))`;
const rowOf = (id: string): string => `document.querySelector('th a[href="#${id}"]').closest('tr').innerText`;

describe.each(['timed', 'several', 'hostile', 'some'] as const)('the page %s', (name) => {
  test('asks for nothing but itself and complains of nothing', async () => {
    const { page, requests, complaints } = await opened({ browser, path: paths[name] });
    expect(requests).toEqual([`file://${paths[name]}`]);
    expect(complaints).toEqual([]);
    expect(await page.evaluate('window.broken')).toBeUndefined();
    await page.close();
  });

  test('has no serious barrier, light or dark, wide or narrow, nor runs over the edge', async () => {
    const { page } = await opened({ browser, path: paths[name] });
    expect(await barriers(page)).toEqual([]);
    await page.setViewportSize({ width: 400, height: 900 });
    await page.emulateMedia({ colorScheme: 'dark' });
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(400);
    if (name !== 'several') expect(await barriers(page)).toEqual([]);
    await page.close();
  });
});

test('a barrier is found where there is one', async () => {
  const { page } = await opened({ browser, path: paths.hostile });
  await page.evaluate('document.querySelector("label").remove()');
  expect(await barriers(page)).toEqual([expect.stringContaining('label: #slider')]);
  await page.close();
});

describe('the slider', () => {
  test('moves every bar by the keyboard, and says what holds', async () => {
    const { page, complaints } = await opened({ browser, path: paths.timed });
    const slider = page.getByRole('slider');
    await slider.focus();
    const before = await page.evaluate<number>(barOf('switch-peak-voltage'));
    const said = await page.getByRole('status').innerText();
    expect(said).toContain('36 V, the project’s own');
    // surge voltage: the time domain at the project's voltage, the closed form elsewhere
    expect(await page.evaluate(rowOf('switch-surge-voltage'))).toMatch(/\(time domain\)\s+fail/);

    for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowLeft');
    expect(await slider.getAttribute('aria-valuetext')).toBe('27 V (closed form, start not assessed)');
    expect(await page.getByRole('status').innerText()).toContain('Starts, load removal and latch-up are not assessed');
    expect(await page.evaluate<number>(barOf('switch-peak-voltage'))).toBeCloseTo((before * 27) / 36, 0);
    expect(await page.evaluate(rowOf('switch-surge-voltage'))).toMatch(/\(closed form, start not assessed\)\s+not assessed/);
    expect(await page.evaluate(rowOf('latch-up'))).toContain('not assessed');

    await page.keyboard.press('End');
    expect(await page.evaluate<number>(barOf('switch-peak-voltage'))).toBeCloseTo(before * 1.5, 0);
    await page.getByRole('button').click();
    expect(await page.getByRole('status').innerText()).toBe(said);
    expect(await page.evaluate<number>(barOf('switch-peak-voltage'))).toBe(before);
    expect(complaints).toEqual([]);
    await page.close();
  });

  test('never shows a pass of what only the time domain can pass, away from the voltage of the project', async () => {
    const { page } = await opened({ browser, path: paths.several });
    const shown = await page.evaluate<readonly string[]>(`(() => {
      const rows = [];
      for (const panel of document.querySelectorAll('[data-bars]')) {
        const slider = panel.querySelector('input');
        for (let i = 0; i <= Number(slider.max); i++) {
          slider.value = i;
          slider.dispatchEvent(new Event('input'));
          for (const row of panel.querySelectorAll('tr.bar-row'))
            if (/start not assessed|latch-up/.test(row.innerText)) rows.push(row.querySelector('.word').textContent);
        }
      }
      return [...new Set(rows)].sort();
    })()`);
    expect(shown).toEqual(['fail', 'not assessed']);
    await page.close();
  });

  test('is not there without a script, and all the rest is', async () => {
    const { page } = await opened({ browser, path: paths.timed, javaScriptEnabled: false });
    expect(await page.locator('input[type=range]').isVisible()).toBe(false);
    expect(await page.locator('tr.bar-row').count()).toBeGreaterThan(30);
    expect(await page.locator('.now').innerText()).toContain('36 V, the project’s own');
    expect(await page.locator('table.check').count()).toBeGreaterThan(30);
    await page.close();
  });
});

test('the first stop of the keyboard leads to the content, and every later one shows where it is', async () => {
  const { page } = await opened({ browser, path: paths.timed });
  await page.keyboard.press('Tab');
  expect(await page.evaluate('document.activeElement.getAttribute("href")')).toBe('#content');
  await page.keyboard.press('Tab');
  expect(await page.evaluate('getComputedStyle(document.activeElement).outlineStyle')).toBe('solid');
  await page.close();
});

test('the policy of the page stops what would leave it', async () => {
  const { page } = await opened({ browser, path: paths.timed });
  const stopped = await page.evaluate(`new Promise((resolve) => {
    document.addEventListener('securitypolicyviolation', (event) => resolve(event.violatedDirective));
    document.body.append(Object.assign(new Image(), { src: 'https://example.invalid/x.png' }));
  })`);
  expect(stopped).toBe('img-src');
  await page.close();
});

test.each(['A4', 'Letter'])('prints on %s without the slider', async (format) => {
  const { page } = await opened({ browser, path: paths.timed });
  const pdf = await page.pdf({ format });
  const sheets = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g) ?? [];
  expect(sheets.length).toBeGreaterThan(5);
  expect(sheets.length).toBeLessThan(25);
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('.slider').isVisible()).toBe(false);
  expect(await page.locator('.now').isVisible()).toBe(true);
  await page.close();
});

test('in print it is dark on white, whatever the screen is', async () => {
  const { page } = await opened({ browser, path: paths.timed, scheme: 'dark' });
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  expect(await page.evaluate('getComputedStyle(document.body).backgroundColor')).toBe('rgb(255, 255, 255)');
  await page.close();
});

test('of several files every link of the overview leads to its project', async () => {
  const { page } = await opened({ browser, path: paths.several });
  await page.getByRole('link', { name: 'no-such-file.yaml' }).click();
  expect(page.url()).toMatch(/#p2$/);
  expect(await page.locator('section[aria-labelledby=p2]').innerText()).toContain('does not exist');
  await page.close();
});
