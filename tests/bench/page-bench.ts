/** How soon the page shows something of a recording, and how much it is to fetch. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import type { Browser } from 'playwright-core';
import { z } from 'zod';
import { Recorder } from '../../server/record/recorder.ts';
import { openBrowser } from '../support/dashboard.ts';
import { runBridge } from '../support/running-bridge.ts';
import { HERTZ, pullDownPa } from './long-session.ts';

interface Row {
  readonly name: string;
  readonly ratio: number;
  readonly detail: string;
}

const PROJECT = fileURLToPath(new URL('../..', import.meta.url));
const BUILD = `import(${JSON.stringify(new URL('../../server/setup.mjs', import.meta.url).href)}).then((setup) => setup.ensurePageBuilt({ say: console.error }))`;
const BATCH = 5000;
const JOB_S = 30 * 60;
const DAY_S = 24 * 3600;
const TURNS = 5;

export async function benchPage(): Promise<Row[]> {
  const { status } = spawnSync(process.execPath, ['-e', BUILD], { stdio: 'inherit' });
  if (status !== 0) throw new Error('the page could not be built');
  const browser = await openBrowser();
  try {
    return [
      await benchFirstPoint(browser, 'half an hour', JOB_S, TURNS),
      await benchFirstPoint(browser, 'a day', DAY_S, 1),
      bundleSize(),
    ];
  } finally {
    await browser.close();
  }
}

async function benchFirstPoint(
  browser: Browser,
  name: string,
  seconds: number,
  turns: number,
): Promise<Row> {
  const dataFolder = mkdtempSync(join(tmpdir(), 'page-bench-'));
  await recordPullDown(dataFolder, seconds);
  const bridge = await runBridge({ dataFolder });
  const shown: Shown[] = [];
  for (let turn = 0; turn < turns; turn += 1) shown.push(await open(browser, bridge.url, seconds));
  await bridge.remove();
  const median = (of: (one: Shown) => number) =>
    shown.map(of).sort((a, b) => a - b)[Math.floor(turns / 2)] ?? 0;
  const [pageMs, firstMs, allMs] = [
    median((one) => one.pageMs),
    median((one) => one.firstMs),
    median((one) => one.allMs),
  ];
  return {
    name: `first point of ${name} at 10 Hz on the screen / the page’s own code run`,
    ratio: firstMs / pageMs,
    detail: `${firstMs.toFixed(0)} ms after the request and ${pageMs.toFixed(0)} ms; all of it after ${allMs.toFixed(0)} ms`,
  };
}

async function recordPullDown(dataFolder: string, seconds: number): Promise<void> {
  const recorder = await Recorder.open(dataFolder, {
    durable: () => undefined,
    held: () => undefined,
  });
  const recordingId = recorder.begin('sensor', Date.now() - seconds * 1000, '');
  const identity = { manufacturer: null, model: null, serial: null, firmware: null };
  recorder.sensor(recordingId, 0, { ...identity, id: 'bench', name: 'bench' });
  for (let row = 0; row < seconds * HERTZ; row += BATCH) {
    const rows = Math.min(BATCH, seconds * HERTZ - row);
    recorder.readings(
      recordingId,
      Array.from({ length: rows }, (_, at) => reading(row + at)),
    );
    await recorder.settled();
  }
  recorder.end(recordingId, Date.now());
  await recorder.settled();
  await recorder.close();
}

function reading(sequence: number) {
  const elapsedS = sequence / HERTZ;
  return {
    channel: 0,
    boot: 1,
    sequence,
    uptimeMs: sequence * (1000 / HERTZ),
    arrivedS: elapsedS,
    elapsedS,
    pressurePa: pullDownPa(elapsedS),
    temperatureC: 20,
    condition: 'ok',
  } as const;
}

/** After the page was asked for, ms. */
const shownSchema = z.object({ pageMs: z.number(), firstMs: z.number(), allMs: z.number() });
type Shown = z.infer<typeof shownSchema>;

async function open(browser: Browser, url: string, seconds: number): Promise<Shown> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  await page.goto(url, { waitUntil: 'commit' });
  const shown = await page.evaluate(watching(seconds));
  await page.close();
  return shownSchema.parse(shown);
}

/** As text: what a compiler adds to a function is not there in the page. */
function watching(seconds: number): string {
  return `(async () => {
    const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
    const chart = (name) =>
      Number(document.querySelector('[data-testid="chart"]')?.dataset[name] ?? 0);
    while (chart('points') === 0) await frame();
    // Painted with the next frame.
    await frame();
    const firstMs = performance.now();
    while (chart('latestS') < ${seconds - 1}) await frame();
    await frame();
    const pageMs = performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd;
    return { pageMs, firstMs, allMs: performance.now() };
  })()`;
}

/** Of code, styles and letters what a browser of today fetches. A limit of ours: a second on a poor line. */
const BUNDLE_LIMIT_KB = 400;

function bundleSize(): Row {
  const folder = join(PROJECT, 'web', 'dist', 'assets');
  const kb = (ending: string, isPacked: boolean) =>
    readdirSync(folder)
      .filter((name) => name.endsWith(ending))
      .map((name) => readFileSync(join(folder, name)))
      .reduce((sum, file) => sum + (isPacked ? gzipSync(file).length : file.length), 0) / 1000;
  const [code, styles, letters] = [kb('.js', true), kb('.css', true), kb('.woff2', false)];
  const all = code + styles + letters;
  return {
    name: `the page to fetch / ${BUNDLE_LIMIT_KB} kB`,
    ratio: all / BUNDLE_LIMIT_KB,
    detail: `code ${code.toFixed(0)} kB and styles ${styles.toFixed(0)} kB gzipped, letters ${letters.toFixed(0)} kB`,
  };
}
