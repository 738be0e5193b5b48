/** The chart in a real browser: read, zoomed, followed, told by signs, and taken along. */
import { readFileSync } from 'node:fs';
import type { Browser, CDPSession, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { expectAccessible } from '../support/accessible.ts';
import { untilFirstJudged } from '../support/called-out.ts';
import { openBrowser, openDashboard, picture, untilReadings } from '../support/dashboard.ts';
import { PlayedSensors } from '../support/played-sensors.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

let bridge: RunningBridge;
let browser: Browser;
const sensors = new PlayedSensors();
/** The next reading's time, s. */
let nextS = 1;

/** A pull-down by formula, one reading a second, the other sensor's a fifth below. */
function pump(untilS: number): void {
  for (; nextS < untilS; nextS += 1) {
    sensors.measure('aa:01', nextS, nextS < 20 ? null : pressurePa(nextS));
    sensors.measure('aa:02', nextS + 0.4, pressurePa(nextS) * 0.8);
  }
}

function pressurePa(s: number): number {
  return 40 + 90_000 * Math.exp(-s / 40) + 3000 / (s + 10);
}

beforeAll(async () => {
  [bridge, browser] = await Promise.all([runBridge({ sensors }), openBrowser()]);
  sensors.meet('aa:01', 'roof');
  sensors.meet('aa:02', 'cellar');
  pump(300);
  // Lost over the roof: the first hundred for good, the others until they are fetched.
  sensors.lose('aa:01', 100);
  const lost = sensors.lose('aa:01', 100);
  nextS += 200;
  pump(900);
  for (let at = 0; at < 100; at += 1) {
    sensors.fetch('aa:01', lost + at, 400 + at, pressurePa(400 + at));
  }
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
});

async function openChart(): Promise<Page> {
  const { page } = await openDashboard(browser, bridge.url);
  await untilReadings(page, 680);
  await untilFirstJudged(page);
  // With the first conclusions the axis grows to what is foreseen: what is measured before is another chart.
  let before = { fromS: 0, toS: 0 };
  await expect
    .poll(
      async () => {
        const was = before;
        before = await shownTime(page);
        return was.toS > 900 && was.toS === before.toS;
      },
      { interval: 300 },
    )
    .toBe(true);
  return page;
}

async function shownTime(page: Page): Promise<{ fromS: number; toS: number }> {
  const [fromS, toS] = await page
    .getByTestId('chart')
    .evaluate((host) => [host.getAttribute('data-from-s'), host.getAttribute('data-to-s')]);
  return { fromS: Number(fromS), toS: Number(toS) };
}

async function boxOf(page: Page, testId: string) {
  const box = await page.getByTestId(testId).boundingBox();
  if (box === null) throw new Error(`${testId} is not to be seen`);
  return box;
}

/** The middle of the chart, in px of the page. */
async function middleOf(page: Page): Promise<{ x: number; y: number }> {
  const { x, y, width, height } = await boxOf(page, 'chart');
  return { x: x + width / 2, y: y + height / 2 };
}

describe('the cursor', () => {
  test('shows what was measured, and never covers the point', async () => {
    const page = await openChart();
    for (const [width, height] of [
      [1280, 800],
      [390, 844],
    ] as const) {
      await page.setViewportSize({ width, height });
      await page.getByTestId('chart').scrollIntoViewIfNeeded();
      const chart = await boxOf(page, 'chart');
      for (const share of [0.3, 0.4, 0.6, 0.75]) {
        await page.mouse.move(chart.x + chart.width * share, chart.y + chart.height / 2);
        const words = page.getByTestId('cursor-box');
        await words.waitFor();
        if ((await page.getByTestId('cursor-point').count()) === 0) continue;
        const [box, point] = [await boxOf(page, 'cursor-box'), await boxOf(page, 'cursor-point')];
        const middle = { x: point.x + point.width / 2, y: point.y + point.height / 2 };
        const isBeside = middle.x < box.x || middle.x > box.x + box.width;
        const isAboveOrBelow = middle.y < box.y || middle.y > box.y + box.height;
        expect(isBeside || isAboveOrBelow, `${width} px at ${share}`).toBe(true);
        const sizes = await words.evaluate((shown) =>
          [shown, ...shown.children].map((part) =>
            Number.parseFloat(getComputedStyle(part).fontSize),
          ),
        );
        expect(Math.min(...sizes)).toBeGreaterThanOrEqual(18);
      }
    }
    await page.context().close();
  });

  test('moves by keys, is told to ears, and names each sensor', async () => {
    const page = await openChart();
    await page.getByTestId('chart').focus();
    await page.keyboard.press('ArrowRight');
    const said = page.getByTestId('cursor-said');
    // From the present on: 40 Pa and 3000/909 Pa are 325 micron, the other a fifth below.
    await expect
      .poll(() => said.innerText())
      .toMatch(/^32[45] micron\. 14:58 into the recording\. /u);
    await expect.poll(() => said.innerText()).toMatch(/cellar 2(59|60) micron/u);
    for (let step = 0; step < 5; step += 1) await page.keyboard.press('ArrowLeft');
    await expect.poll(() => said.innerText()).not.toMatch(/14:58/u);
    // Into the time of which nothing is left, and past what came later.
    for (let step = 0; step < 30; step += 1) {
      if (/^no readings/u.test(await said.innerText())) break;
      await page.keyboard.press('ArrowLeft');
    }
    await expect.poll(() => said.innerText()).toMatch(/^no readings/u);
    await page.keyboard.press('Tab');
    await expect.poll(() => page.getByTestId('cursor').count()).toBe(0);
    await page.context().close();
  });
});

describe('zoom', () => {
  test('by wheel is about the pointer, and the present is followed while it is in view', async () => {
    const page = await openChart();
    const before = await shownTime(page);
    const { x, y } = await middleOf(page);
    await page.mouse.move(x, y);
    for (let notch = 0; notch < 3; notch += 1) await page.mouse.wheel(0, -100);
    await expect
      .poll(async () => widthOf(await shownTime(page)))
      .toBeLessThan(widthOf(before) * 0.7);
    const near = await shownTime(page);
    expect(near.fromS).toBeGreaterThan(before.fromS);
    expect(near.toS).toBeLessThan(before.toS);
    await expect.poll(() => page.getByTestId('chart').getAttribute('data-view')).toBe('follow');
    pump(nextS + 30);
    await expect.poll(async () => (await shownTime(page)).toS).toBeCloseTo(near.toS + 30, 0);
    expect(widthOf(await shownTime(page))).toBeCloseTo(widthOf(near), 6);
    await page.context().close();
  });

  test('what was moved away from the present stays, with a way back', async () => {
    const page = await openChart();
    const usual = await shownTime(page);
    await page.getByTestId('chart').focus();
    await page.keyboard.press('+');
    await page.keyboard.press('+');
    await page.keyboard.press('Home');
    const back = page.getByTestId('back-to-now');
    await back.waitFor();
    await expect.poll(async () => (await shownTime(page)).fromS).toBe(usual.fromS);
    const early = await shownTime(page);
    pump(nextS + 20);
    await untilReadings(page, nextS - 101);
    expect(await shownTime(page)).toEqual(early);
    await back.click();
    await expect
      .poll(async () => widthOf(await shownTime(page)))
      .toBeGreaterThan(widthOf(early) * 3);
    await expect.poll(() => back.count()).toBe(0);
    await page.getByTestId('chart').focus();
    await page.keyboard.press('+');
    await page.keyboard.press('+');
    await page.keyboard.press('Home');
    await back.waitFor();
    await page.keyboard.press('Escape');
    await back.waitFor({ state: 'detached' });
    await page.context().close();
  });

  test('a stretch is selected by drag, and 0 shows all', async () => {
    const page = await openChart();
    const usual = await shownTime(page);
    const { x, y } = await middleOf(page);
    await page.mouse.move(x - 100, y);
    await page.mouse.down();
    await page.mouse.move(x, y, { steps: 4 });
    await picture(page, 'chart-selecting');
    await page.mouse.up();
    await expect.poll(async () => widthOf(await shownTime(page))).toBeLessThan(widthOf(usual) / 3);
    await page.getByTestId('chart').focus();
    await page.keyboard.press('0');
    await expect.poll(async () => widthOf(await shownTime(page))).toBeGreaterThan(900);
    await page.context().close();
  });
});

describe('by touch', () => {
  async function openPhone() {
    const context = await browser.newContext({
      viewport: { width: 390, height: 844 },
      hasTouch: true,
      isMobile: true,
    });
    const page = await context.newPage();
    await page.goto(bridge.url);
    await untilReadings(page, 680);
    await page.getByTestId('chart').scrollIntoViewIfNeeded();
    await expect.poll(async () => (await shownTime(page)).toS).toBeGreaterThan(900);
    return { page, touch: await context.newCDPSession(page) };
  }

  async function swipe(
    touch: CDPSession,
    paths: readonly { from: number; to: number; y: number; toY?: number }[],
  ) {
    const at = (share: number) =>
      paths.map(({ from, to, y, toY = y }, id) => {
        return { x: from + (to - from) * share, y: y + (toY - y) * share, id };
      });
    await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: at(0) });
    for (const share of [0.25, 0.5, 0.75, 1]) {
      await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: at(share) });
    }
    await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  }

  test('two fingers zoom, one moves, a tap shows values, and the page still scrolls', async () => {
    const { page, touch } = await openPhone();
    const usual = await shownTime(page);
    const { x, y } = await middleOf(page);
    await swipe(touch, [
      { from: x - 20, to: x - 80, y },
      { from: x + 20, to: x + 80, y },
    ]);
    await expect.poll(async () => widthOf(await shownTime(page))).toBeLessThan(widthOf(usual) / 2);
    const near = await shownTime(page);
    await swipe(touch, [{ from: x - 50, to: x + 50, y }]);
    await expect.poll(async () => (await shownTime(page)).fromS).toBeLessThan(near.fromS - 20);
    expect(widthOf(await shownTime(page))).toBeCloseTo(widthOf(near), 3);
    await page.touchscreen.tap(x, y);
    await page.getByTestId('cursor-box').waitFor();
    await picture(page, 'chart-phone');
    const scrolled = await page.evaluate(() => window.scrollY);
    await swipe(touch, [{ from: x, to: x, y, toY: y + 250 }]);
    await expect.poll(() => page.evaluate(() => window.scrollY)).toBeLessThan(scrolled - 100);
    await page.context().close();
  });
});

test('what no line tells is named in the key, and the curve in words', async () => {
  const page = await openChart();
  const key = page.getByTestId('chart-key');
  await expect
    .poll(() => key.innerText())
    .toMatch(/no readings.*above the sensor’s range.*came in late/su);
  await expect.poll(() => key.innerText()).not.toMatch(/fault|warming/u);
  const signs = await key.locator('svg').evaluateAll((all) => all.map((one) => one.innerHTML));
  expect(new Set(signs).size).toBe(signs.length);
  await expect
    .poll(() => page.getByTestId('chart-sentence').innerText(), { timeout: 10_000 })
    .toMatch(/^The pressure falls from [\d\u00a0]+ to 32\d micron in 1\d min/u);
  await page.context().close();
});

test('what is shown can be saved, and read as a table', async () => {
  const page = await openChart();
  await page.getByTestId('chart-menu').locator('summary').click();
  const table = page.getByTestId('chart-table');
  await table.waitFor();
  await expect.poll(() => table.locator('tbody tr').count()).toBe(11);
  await expect.poll(() => table.innerText()).toMatch(/roof\s+cellar/u);
  const save = async (kind: 'svg' | 'png') => {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByTestId(`save-${kind}`).click(),
    ]);
    expect(download.suggestedFilename()).toBe(`recording-1-pressure.${kind}`);
    return readFileSync(await download.path());
  };
  const svg = (await save('svg')).toString();
  expect(svg).toMatch(/^<svg xmlns=/u);
  expect(svg).toMatch(/roof, cellar · .* · absolute pressure in micron/u);
  expect(svg).toMatch(/class="late"/u);
  const png = await save('png');
  // PNG, third edition, 5.2 and 11.2.1: signature, then width and height in the first chunk.
  expect(png.subarray(1, 4).toString()).toBe('PNG');
  expect(png.readUInt32BE(16)).toBeGreaterThan(1400);
  expect(png.length).toBeGreaterThan(20_000);
  await page.context().close();
});

test('nothing of it breaks a rule of accessibility, in any look', { timeout: 90_000 }, async () => {
  const page = await openChart();
  await page.getByTestId('chart-menu').locator('summary').click();
  for (const look of ['day', 'night', 'sun']) {
    await page.evaluate((name) => (document.documentElement.dataset['look'] = name), look);
    pump(nextS + 1);
    await expectAccessible(page);
    await picture(page, `chart-${look}`);
  }
  await page.context().close();
});

function widthOf({ fromS, toS }: { fromS: number; toS: number }): number {
  return toS - fromS;
}
