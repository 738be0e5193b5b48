/**
 * What the chart costs in a browser, a day at 10 Hz against the bare chart library with the same
 * points; and what eight hours do to the page's memory. A picture counts until its last pixel is there;
 * frames of live readings are as long as the screen refreshes at least.
 */
import type { CDPSession, Page } from 'playwright-core';
import { z } from 'zod';
import { openBenchPage } from './chart/bench-page.ts';
import { quantile } from './timings.ts';

interface Row {
  readonly name: string;
  readonly ratio: number;
  readonly detail: string;
}

const DAY_S = 24 * 3600;
/** What a frame may take while readings arrive. A setting of ours. */
const FRAME_LIMIT_MS = 50;
const LIVE_S = 30;
const ROUNDS = 3;
/** The bare library's frames are long, and all alike. */
const BARE_LIVE_S = 10;
const HOURS = 8;
/** Drawn and judged once for so many seconds of data time. */
const DRAWN_EVERY_S = 15;

export async function benchChart(): Promise<Row[]> {
  const bench = await openBenchPage();
  const { page, devtools } = bench;
  try {
    return [...(await benchDrawing(page)), ...(await benchMemory(page, devtools))];
  } finally {
    await bench.close();
  }
}

async function benchDrawing(page: Page): Promise<Row[]> {
  const ask = asker(page);
  const insertMs = await ask.number(`add(${DAY_S})`);
  const rounds: Round[] = [];
  // In turn, since what else the machine does changes.
  for (let round = 0; round < ROUNDS; round += 1) {
    rounds.push({ ours: await drawings(page, 'ours'), bare: await drawings(page, 'bare') });
  }
  const of = (kind: 'ours' | 'bare', what: keyof Drawings) =>
    rounds.flatMap((round) => round[kind][what]).sort((a, b) => a - b);
  const bareLive = await ask.times(`live('bare', ${BARE_LIVE_S})`);
  await ask.nothing('openOurs()');
  const live = await ask.times(`live('ours', ${LIVE_S})`);
  const p99 = quantile(live, 0.99);
  const perReadingUs = (insertMs * 1000) / (DAY_S * 10);
  const curveMb = (await ask.number('curveBytes()')) / 1e6;
  await ask.nothing('clear()');
  return [
    compared('opened', of('ours', 'opened'), of('bare', 'opened')),
    compared('panned, a picture', of('ours', 'panned'), of('bare', 'panned')),
    compared('zoomed, a picture', of('ours', 'zoomed'), of('bare', 'zoomed')),
    {
      name: `live at 10 Hz, a day held: p99 of a frame / ${FRAME_LIMIT_MS} ms`,
      ratio: p99 / FRAME_LIMIT_MS,
      detail: `p50 ${ms(quantile(live, 0.5))}, p99 ${ms(p99)}; bare library ${ms(quantile(bareLive, 0.5))} and ${ms(quantile(bareLive, 0.99))}; ${perReadingUs.toFixed(1)} µs to take in a reading, pyramid ${curveMb.toFixed(1)} MB`,
    },
  ];
}

interface Drawings {
  readonly opened: readonly number[];
  readonly panned: readonly number[];
  readonly zoomed: readonly number[];
}
type Round = Readonly<Record<'ours' | 'bare', Drawings>>;

async function drawings(page: Page, kind: 'ours' | 'bare'): Promise<Drawings> {
  const ask = asker(page);
  const opened = await ask.number(kind === 'ours' ? 'openOurs()' : 'openBare()');
  return {
    opened: [opened],
    panned: await ask.times(`pan('${kind}')`),
    zoomed: await ask.times(`zoom('${kind}')`),
  };
}

/** Readings are kept, and take what they take; everything else must not grow. */
async function benchMemory(page: Page, devtools: CDPSession): Promise<Row[]> {
  const ask = asker(page);
  await ask.nothing('begin()');
  await ask.nothing('openOurs()');
  await ask.nothing(`eightHours(1, ${DRAWN_EVERY_S})`);
  const early = await heapMb(devtools);
  const hourly = [early];
  for (let hour = 2; hour <= HOURS; hour += 1) {
    await ask.nothing(`eightHours(1, ${DRAWN_EVERY_S})`);
    hourly.push(await heapMb(devtools));
  }
  const late = hourly.at(-1) ?? early;
  return [
    {
      name: `memory: the page’s heap after ${HOURS} hours of readings at 10 Hz / after one`,
      ratio: late.heapMb / early.heapMb,
      detail: `${hourly.map((one) => one.heapMb.toFixed(2)).join(', ')} MB; columns beside it ${early.columnsMb.toFixed(0)} and ${late.columnsMb.toFixed(0)} MB`,
    },
  ];
}

function compared(what: string, ours: readonly number[], bare: readonly number[]): Row {
  const [a, b] = [quantile(ours, 0.5), quantile(bare, 0.5)];
  return {
    name: `a day at 10 Hz ${what}: chart / bare library`,
    ratio: a / b,
    detail: `p50 ${ms(a)} and ${ms(b)}, p99 ${ms(quantile(ours, 0.99))} and ${ms(quantile(bare, 0.99))}`,
  };
}

const heapSchema = z.object({ usedSize: z.number(), backingStorageSize: z.number() });

async function heapMb(devtools: CDPSession) {
  await devtools.send('HeapProfiler.collectGarbage');
  const heap = heapSchema.parse(await devtools.send('Runtime.getHeapUsage'));
  return { heapMb: heap.usedSize / 1e6, columnsMb: heap.backingStorageSize / 1e6 };
}

function asker(page: Page) {
  const ask = (what: string): Promise<unknown> => page.evaluate(`window.chartBench.${what}`);
  return {
    number: async (what: string) => z.number().parse(await ask(what)),
    /** In ascending order. */
    times: async (what: string) =>
      z
        .array(z.number())
        .parse(await ask(what))
        .sort((a, b) => a - b),
    nothing: async (what: string) => {
      await ask(what);
    },
  };
}

function ms(value: number): string {
  return `${value.toFixed(value < 10 ? 1 : 0)} ms`;
}
