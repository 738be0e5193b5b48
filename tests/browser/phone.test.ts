/** On a phone: what has to be legible at a glance is there without scrolling, strips and all. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser, picture, untilShown } from '../support/dashboard.ts';
import { rehearse } from '../support/rehearsing.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

const PHONE = { width: 390, height: 844 };
const ACROSS = { width: 844, height: 390 };
/** Least size of what is touched, px: WCAG 2.2, success criterion 2.5.5. */
const LEAST_TOUCHED = 44;

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
    // Its verdict has the longest words.
    const { page, complaints } = await rehearse(browser, bridge.url, 'weir-street-archive');
    await page.setViewportSize(PHONE);
    await page.getByTestId('alert').waitFor({ timeout: 120_000 });
    await lookAtPhone(page, 'phone-target');
    await untilShown(page, 'verdict', 'leak_and_moisture');
    await page.getByText('And 1 before').waitFor();
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

  // Across there is half the height: what is read, and the conclusion's headline.
  await page.setViewportSize(ACROSS);
  await picture(page, `${name}-across`);
  for (const shown of [...strips, 'stage', 'number', 'trend', 'headline']) {
    expect(await bottomOf(page, shown), `${shown}, across`).toBeLessThan(ACROSS.height);
  }
  await expectTouchable(page, ACROSS.width);
  await page.setViewportSize(PHONE);
  await page.getByTestId('pause').click();
}

async function expectTouchable(page: Page, widthPx: number): Promise<void> {
  const width = await page.evaluate(() => document.documentElement.scrollWidth);
  expect(width).toBeLessThanOrEqual(widthPx);
  for (const touched of await page.locator('header button, .strips :is(button, select)').all()) {
    const box = await touched.boundingBox();
    expect(box?.height, await touched.innerText()).toBeGreaterThanOrEqual(LEAST_TOUCHED);
    expect(box?.width, await touched.innerText()).toBeGreaterThanOrEqual(LEAST_TOUCHED);
  }
}

/** Distance from the top of the page to the lower edge, px; fails where it is not to be seen. */
async function bottomOf(page: Page, testId: string): Promise<number> {
  const box = await page.getByTestId(testId).boundingBox();
  if (box === null || box.width === 0) throw new Error(`${testId} is not to be seen`);
  return box.y + box.height;
}
