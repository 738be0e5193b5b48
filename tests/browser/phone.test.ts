/** On a phone: what has to be legible at a glance is there without scrolling, strips and all. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser, picture, untilShown } from '../support/dashboard.ts';
import { rehearse } from '../support/rehearsing.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

const PHONE = { width: 390, height: 844 };
/** Where there is less room, and what has to be in sight there all the same, strips and all. */
const SMALLER = [
  { width: 844, height: 390, inSight: ['stage', 'number', 'trend', 'headline'] },
  { width: 640, height: 360, inSight: ['stage', 'number', 'trend', 'headline'] },
  { width: 320, height: 568, inSight: ['stage', 'number'] },
];
/** Between what ends a rehearsal and what is pressed beside it, px: twice what the others have. */
const APART = 10;
/** Least size of what is touched, px: WCAG 2.2, success criterion 2.5.5. */
const LEAST_TOUCHED = 44;

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

let bridge: RunningBridge;
let browser: Browser;

beforeAll(async () => {
  [bridge, browser] = await Promise.all([runBridge(), openBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
});

test(
  'reading, stage, sentence and next step stand above the fold with both strips shown',
  { timeout: 180_000 },
  async () => {
    // Its verdict has the longest words; slowly, since it has to be paused before its hold is over.
    const { page, complaints } = await rehearse(
      browser,
      bridge.url,
      'weir-street-archive',
      {},
      '×60',
    );
    await page.setViewportSize(PHONE);
    await page.getByTestId('alert').waitFor({ timeout: 120_000 });
    await lookAtPhone(page, 'phone-target');
    await untilShown(page, 'verdict', 'leak_and_moisture');
    await page.getByTestId('alerts-before').waitFor();
    await lookAtPhone(page, 'phone-verdict');
    expect(complaints).toEqual([]);
    await page.context().close();
  },
);

/** Pauses for it: what is measured must not change its words meanwhile. */
async function lookAtPhone(page: Page, name: string): Promise<void> {
  await page.getByTestId('pause').click();
  await untilShown(page, 'freshness', 'paused');
  await page.evaluate(() => window.scrollTo(0, 0));
  await picture(page, name);

  const strips = ['alert', 'rehearsal-bar'];
  for (const shown of [...strips, 'stage', 'number', 'headline', 'sure', 'todo', 'how']) {
    expect(await bottomOf(page, shown), shown).toBeLessThan(PHONE.height);
  }
  await expectTouchable(page, PHONE.width);

  await expectWholeChart(page);
  for (const { inSight, ...size } of SMALLER) {
    await page.setViewportSize(size);
    await page.evaluate(() => window.scrollTo(0, 0));
    const across = `${size.width}x${size.height}`;
    await picture(page, `${name}-${across}`);
    for (const shown of [...strips, ...inSight]) {
      expect(await bottomOf(page, shown), `${shown}, ${across}`).toBeLessThan(size.height);
    }
    await expectTouchable(page, size.width);
    await expectWholeChart(page);
  }
  await page.setViewportSize(PHONE);
  await page.getByTestId('pause').click();
}

async function expectTouchable(page: Page, widthPx: number): Promise<void> {
  const width = await page.evaluate(() => document.documentElement.scrollWidth);
  expect(width).toBeLessThanOrEqual(widthPx);
  for (const touched of await page
    .locator('header button:visible, .strips :is(button, select)')
    .all()) {
    const box = await touched.boundingBox();
    const name = await touched.innerText();
    expect(box?.height, name).toBeGreaterThanOrEqual(LEAST_TOUCHED);
    expect(box?.width, name).toBeGreaterThanOrEqual(LEAST_TOUCHED);
  }
  for (const ends of ['again', 'stop']) {
    for (const other of ['rate', 'pause', 'jump', 'call', ends === 'stop' ? 'again' : 'stop']) {
      const gap = gapBetween(await boxOf(page, ends), await boxOf(page, other));
      expect(gap, `${ends} and ${other}`).toBeGreaterThanOrEqual(APART);
    }
  }
}

/** What is drawn lower than its place is cut off: time axis, target and present reading with it. */
async function expectWholeChart(page: Page): Promise<void> {
  const heights = () =>
    page
      .getByTestId('chart')
      .evaluate((host) => [host.clientHeight, host.querySelector('canvas')?.clientHeight ?? 0]);
  await expect
    .poll(async () => {
      const [host = 0, canvas = 0] = await heights();
      return canvas > 0 && host >= canvas;
    })
    .toBe(true);
}

/** Distance from the top of the page to the lower edge, px; fails where it is not to be seen. */
async function bottomOf(page: Page, testId: string): Promise<number> {
  const { y, height } = await boxOf(page, testId);
  return y + height;
}

async function boxOf(page: Page, testId: string): Promise<Box> {
  const box = await page.getByTestId(testId).boundingBox();
  if (box === null || box.width === 0) throw new Error(`${testId} is not to be seen`);
  return box;
}

/** Between their nearest edges, across or down, px. */
function gapBetween(a: Box, b: Box): number {
  const across = Math.max(a.x - (b.x + b.width), b.x - (a.x + a.width));
  const down = Math.max(a.y - (b.y + b.height), b.y - (a.y + a.height));
  return Math.max(across, down);
}
