import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { fileWith } from '../cli/ran.ts';
import { barriers, opened, startedBrowser } from './browser.ts';

const cards = join(import.meta.dirname, '..', 'report', 'cards');

test('the card of a first power-up has no serious barrier, nor runs over the edge of a narrow screen', async () => {
  const browser = await startedBrowser();
  const path = fileWith(readFileSync(join(cards, 'charging-pad.html')), 'card.html');
  const { page, requests } = await opened({ browser, path, width: 400 });
  expect(requests).toEqual([`file://${path}`]);
  expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(400);
  expect(await barriers(page)).toEqual([]);
  await browser.close();
});
