/** The page in a real browser, for browser tests. */
import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { expect, onTestFailed, TestRunner } from 'vitest';
import { z } from 'zod';
import { readingSchema } from '../../protocol/reading.ts';
import type { Reading } from '../../protocol/reading.ts';

const OUTPUT = fileURLToPath(new URL('../output', import.meta.url));

/** Debian's Chromium without windows, which needs a quarter less of the processors, or the whole one. */
const WITHOUT_WINDOWS = '/usr/bin/chromium-headless-shell';
const WHOLE = '/usr/bin/chromium';

export function openBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath:
      process.env['CHROMIUM'] ?? (existsSync(WITHOUT_WINDOWS) ? WITHOUT_WINDOWS : WHOLE),
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--autoplay-policy=user-gesture-required',
    ],
  });
}

export interface Dashboard {
  readonly page: Page;
  /** What went wrong in the page: exceptions, errors on its console, requests to anywhere else. */
  readonly complaints: readonly string[];
}

export interface Opening {
  /** Runs in the page before anything of its own does, with each load. */
  readonly script?: string;
  /** Another size, language and the like. */
  readonly context?: BrowserContextOptions;
  /** What has to be done before the page is asked for. */
  readonly prepare?: (page: Page) => Promise<void>;
}

/** Opens the page at the size of a laptop on a van seat. */
export async function openDashboard(
  browser: Browser,
  url: string,
  { script = '', context: options = {}, prepare }: Opening = {},
): Promise<Dashboard> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options });
  await context.addInitScript({ content: script });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('request', (request) => {
    const { hostname, protocol } = new URL(request.url());
    if (protocol !== 'data:' && hostname !== '127.0.0.1') complaints.push(request.url());
  });
  await prepare?.(page);
  await page.goto(url);
  // What all tests of a file share belongs to none of them.
  if (TestRunner.getCurrentTest() !== undefined) onTestFailed(() => saySeen(page, complaints));
  return { page, complaints };
}

/** Nobody was there to look: what stood on the page when a test of it failed. */
async function saySeen(page: Page, complaints: readonly string[]): Promise<void> {
  if (page.isClosed()) return;
  const seen = await page.evaluate(() => ({
    shown: JSON.stringify(document.documentElement.dataset),
    focused: document.activeElement?.outerHTML.slice(0, 200),
    dialogs: [...document.querySelectorAll('dialog')].map(({ open, innerText }) => [
      open,
      innerText.slice(0, 500),
    ]),
    text: document.body.innerText.slice(0, 3000),
  }));
  console.error('The page as it stood:', { ...seen, complaints });
}

/** A value that the page shows as a data attribute of its root. */
export function shown(page: Page, name: string): Promise<string> {
  return page.evaluate((key) => document.documentElement.dataset[key] ?? '', name);
}

export async function untilShown(page: Page, name: string, wanted: string): Promise<void> {
  await page.waitForFunction(
    ([key, value]) => document.documentElement.dataset[key] === value,
    [name, wanted] as const,
    { timeout: 120_000 },
  );
}

/** Resolves once the page follows another recording than this one, whose readings it may show till then. */
export async function untilOtherRecording(page: Page, earlier: string): Promise<void> {
  await page.waitForFunction(
    (id) => ![undefined, '', id].includes(document.documentElement.dataset['recording']),
    earlier,
  );
}

/**
 * Resolves once the page holds so many readings. Asked from here again and again: a condition given
 * to the page as text would need eval, which its security policy forbids.
 */
export async function untilReadings(page: Page, count: number): Promise<void> {
  await expect
    .poll(async () => (await pageReadings(page)).length, { timeout: 60_000 })
    .toBeGreaterThanOrEqual(count);
}

/** Every reading that the page holds. */
export async function pageReadings(page: Page): Promise<Reading[]> {
  return z.array(readingSchema).parse(await page.evaluate('window.ebbline.readings()'));
}

/** The pressures that the chart draws, in order; a gap is a null. */
export async function drawnPressures(page: Page): Promise<(number | null)[]> {
  const pressures = z.array(z.number().nullable());
  return pressures.parse(await page.evaluate('window.ebbline.drawn().pressurePa'));
}

/**
 * A picture for whoever wants to look, who sets PICTURES=yes; never compared, and slow to
 * take where no graphics card draws them.
 */
export async function picture(page: Page, name: string): Promise<void> {
  if (process.env['PICTURES'] !== 'yes') return;
  mkdirSync(OUTPUT, { recursive: true });
  await page.screenshot({ path: join(OUTPUT, `${name}.png`) });
}
