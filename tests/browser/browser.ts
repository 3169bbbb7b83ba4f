import { existsSync } from 'node:fs';
import { chromium, type Browser, type Page } from 'playwright-core';
import axe from 'axe-core';

/** Where Debian has it; it is not fetched from anywhere. */
const executablePath = '/usr/bin/chromium';

/**
 * Starts Chromium without a window.
 *
 * Errors: where it is not installed, with what to do.
 */
export async function startedBrowser(): Promise<Browser> {
  if (!existsSync(executablePath)) throw new Error(`${executablePath} is missing: apt-get install chromium`);
  // as root, as in a container, it has no sandbox of its own
  return chromium.launch({ executablePath, args: ['--no-sandbox'] });
}

/** A page with all that it asked for and complained of. */
export interface Watched {
  readonly page: Page;
  readonly requests: readonly string[];
  readonly complaints: readonly string[];
}

/** Opens a file, without a network. */
export async function opened({
  browser,
  path,
  width = 1200,
  scheme = 'light',
  javaScriptEnabled = true,
}: {
  browser: Browser;
  path: string;
  width?: number;
  scheme?: 'light' | 'dark';
  javaScriptEnabled?: boolean;
}): Promise<Watched> {
  const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme: scheme, offline: true, javaScriptEnabled });
  const page = await context.newPage();
  const [requests, complaints]: [string[], string[]] = [[], []];
  page.on('request', (request) => requests.push(request.url()));
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(`file://${path}`);
  return { page, requests, complaints };
}

interface AxeResults {
  readonly violations: readonly { readonly id: string; readonly impact: string; readonly nodes: readonly { readonly target: unknown }[] }[];
}

/** What axe-core finds serious or critical, with the places. */
export async function barriers(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate<AxeResults>('axe.run(document, { resultTypes: ["violations"] })');
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => String(target)).join(' | ')}`);
}
