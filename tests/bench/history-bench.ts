/**
 * How quick the list of jobs and an old job are in a record of many years. In seconds, since a person waits for
 * them: the list within 100 ms and a three-hour job within 300 ms are what was aimed at.
 */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { jobListSchema } from '../../protocol/job-card.ts';
import { RECORD_FILE } from '../../server/record/open-database.ts';
import { openBrowser } from '../support/dashboard.ts';
import { runBridge, type RunningBridge } from '../support/running-bridge.ts';
import { StreamClient } from '../support/stream-client.ts';
import { JOB_READINGS, recordManyJobs } from './many-jobs.ts';
import { quantile } from './timings.ts';

interface Row {
  readonly name: string;
  readonly ratio: number;
  readonly detail: string;
}

const LIST_MS = 100;
const OPEN_MS = 300;
const TURNS = 40;
const JOBS = 10_000;
/** Some 100 million readings, 10 GB and ten minutes; a tenth of that is what is benched else. */
const FULL_READINGS = 10_000;
const QUERIES = [
  '',
  'search=quay',
  'search=mill%2012',
  'verdict=tight_dry',
  'skip=5000',
  'archived=all',
];

export async function benchHistory(full: boolean): Promise<Row[]> {
  const dataFolder = mkdtempSync(join(tmpdir(), 'history-bench-'));
  const each = full ? FULL_READINGS : FULL_READINGS / 10;
  await recordManyJobs(dataFolder, JOBS, each);
  const bytes = statSync(join(dataFolder, RECORD_FILE)).size;
  const beganMs = performance.now();
  const bridge = await runBridge({ dataFolder });
  const startedMs = performance.now() - beganMs;
  const browser = await openBrowser();
  try {
    const size = `${JOBS} jobs, ${((JOBS * each) / 1e6).toFixed(0)} million readings, ${(bytes / 1e9).toFixed(1)} GB, started in ${(startedMs / 1000).toFixed(1)} s`;
    return [
      await benchList(bridge, size),
      await benchStream(bridge),
      await benchOpen(browser, bridge),
    ];
  } finally {
    await browser.close();
    await bridge.stop();
    rmSync(dataFolder, { recursive: true, force: true });
  }
}

async function benchList(bridge: RunningBridge, size: string): Promise<Row> {
  const tookMs: number[] = [];
  for (let turn = 0; turn < TURNS; turn += 1) {
    const query = QUERIES[turn % QUERIES.length] ?? '';
    const beganMs = performance.now();
    const answer = await fetch(new URL(`api/jobs?${query}`, bridge.url));
    const { found } = jobListSchema.parse(await answer.json());
    tookMs.push(performance.now() - beganMs);
    if (found === 0) throw new Error(`nothing was found by "${query}"`);
  }
  return within(`list of jobs, searched or not, of ${size}`, tookMs, LIST_MS);
}

/** All readings, as a screen takes them. */
async function benchStream(bridge: RunningBridge): Promise<Row> {
  const tookMs: number[] = [];
  for (let turn = 0; turn < TURNS / 4; turn += 1) {
    const client = new StreamClient(bridge.url);
    await client.until(() => client.heard.length > 0);
    const beganMs = performance.now();
    client.send({ type: 'follow', recordingId: 1, afterIndex: 0 });
    let answered = 0;
    await client.until(() => {
      const parts = client.heard.filter(({ type }) => type === 'backfill');
      for (; answered < parts.length; answered += 1) client.send({ type: 'more', recordingId: 1 });
      return client.indexes().length >= JOB_READINGS;
    });
    tookMs.push(performance.now() - beganMs);
    client.close();
  }
  return within('all readings of a job of three hours, over the stream', tookMs, OPEN_MS);
}

/** From the press on its button until the frame that shows its conclusions, by the page's own clock. */
async function benchOpen(browser: Browser, bridge: RunningBridge): Promise<Row> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const tookMs: number[] = [];
  for (let turn = 0; turn < TURNS / 2; turn += 1) {
    await page.goto(bridge.url);
    await page.getByTestId('menu').click();
    await page.getByTestId('open-recordings').click();
    await page.getByRole('searchbox').fill('Roof gauge');
    const row = page.getByTestId('job-1-0').getByRole('button').first();
    await row.waitFor();
    const took = await page.evaluateHandle(timeToTheVerdict);
    await row.click();
    tookMs.push(await took.evaluate(({ shown }) => shown));
  }
  await page.close();
  return within('a job of three hours opened from the list, on the screen', tookMs, OPEN_MS);
}

/** Runs in the page. */
function timeToTheVerdict(): { shown: Promise<number> } {
  const { dataset } = document.documentElement;
  dataset['stage'] = '';
  const pressed = new Promise<number>((resolve) => {
    window.addEventListener('click', ({ timeStamp }) => resolve(timeStamp), {
      capture: true,
      once: true,
    });
  });
  const painted = new Promise<number>((resolve) => {
    const watch = new MutationObserver(() => {
      if (dataset['stage'] !== 'rise') return;
      watch.disconnect();
      // After the frame: a message is taken up behind the drawing.
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => resolve(performance.now());
        port2.postMessage(null);
      });
    });
    watch.observe(document.documentElement, { attributes: true });
  });
  return { shown: Promise.all([pressed, painted]).then(([from, to]) => to - from) };
}

function within(name: string, tookMs: readonly number[], aimMs: number): Row {
  const ascending = [...tookMs].sort((a, b) => a - b);
  const [middle, late] = [quantile(ascending, 0.5), quantile(ascending, 0.95)];
  return {
    name: `${name} / what was aimed at`,
    ratio: late / aimMs,
    detail: `95 % within ${late.toFixed(0)} ms, half within ${middle.toFixed(0)}; aimed at ${aimMs}`,
  };
}
