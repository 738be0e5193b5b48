/** The whole job by keyboard alone: a rehearsal begun, worked, called, revealed and left. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser, openDashboard, untilShown } from '../support/dashboard.ts';
import { jumpToHold } from '../support/rehearsing.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';
import { typeInReading } from '../support/typed-reading.ts';

let bridge: RunningBridge;
let browser: Browser;

beforeAll(async () => {
  [bridge, browser] = await Promise.all([runBridge(), openBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
});

/** More presses than the page has things to go to. */
const MOST_PRESSES = 90;

test('a job from its beginning to its reveal', { timeout: 240_000 }, async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await page.getByTestId('nothing-yet').waitFor();
  await press(page, 'rehearse-first');
  await untilShown(page, 'stage', 'pull_down');

  await press(page, 'mark-note');
  await page.getByTestId('note-panel').locator('input:focus, textarea:focus').waitFor();
  await page.keyboard.type('Hoses warmed by hand');
  await page.keyboard.press('Enter');
  await page.getByTestId('note-panel').waitFor({ state: 'detached' });

  await press(page, 'menu');
  await press(page, 'open-sheet');
  await page.getByTestId('sheet-panel').waitFor();
  await page.keyboard.press('Escape');
  await page.getByTestId('sheet-panel').waitFor({ state: 'detached' });

  await press(page, 'rate', 'ArrowDown', 'ArrowDown');
  await jumpToHold(page, () => press(page, 'jump'));
  await press(page, 'call');
  await tabTo(page, () => document.activeElement?.getAttribute('type') === 'radio');
  await page.keyboard.press('Space');
  await tabTo(page, () => document.activeElement?.getAttribute('name') === 'trainee');
  await page.keyboard.type('A. Apprentice');
  await press(page, 'make-call');
  await press(page, 'reveal-now');
  await page.getByTestId('truth').waitFor();
  await page.keyboard.press('Escape');
  await page.getByTestId('revealed').waitFor();
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('closing a panel leads back to what opened it, however it is closed', async () => {
  const { page } = await openDashboard(browser, bridge.url);
  for (const close of ['button', 'Escape']) {
    await press(page, 'menu');
    await page.getByTestId('menu-panel').waitFor();
    if (close === 'button') await press(page, 'close-panel');
    else await page.keyboard.press(close);
    await page.getByTestId('menu-panel').waitFor({ state: 'detached' });
    const focused = await page.evaluate(() => document.activeElement?.getAttribute('data-testid'));
    expect(focused, close).toBe('menu');
  }
  // A panel that was opened from the menu has nothing left to go back to but what opened that.
  await press(page, 'menu');
  await press(page, 'open-recordings');
  await page.getByTestId('recordings-panel').waitFor();
  await page.keyboard.press('Escape');
  await page.getByTestId('recordings-panel').waitFor({ state: 'detached' });
  await expect
    .poll(() => page.evaluate(() => document.activeElement?.getAttribute('data-testid')))
    .toBe('menu');
  await page.context().close();
});

test('the first reading of a sensor leaves the hand where it is', async () => {
  const own = await runBridge();
  const { page } = await openDashboard(browser, own.url);
  await page.getByTestId('nothing-yet').waitFor();
  await page.getByTestId('menu').focus();
  await typeInReading(own.url, 90_000);
  await page.getByTestId('job').waitFor();
  // A button that turns into another one under a finger presses what nobody meant, or nothing.
  await expect
    .poll(() => page.evaluate(() => document.activeElement?.getAttribute('data-testid')))
    .toBe('menu');
  await page.keyboard.press('Enter');
  await page.getByTestId('menu-panel').waitFor();
  await page.context().close();
  await own.remove();
});

/** Goes there by Tab, and presses it. */
async function press(page: Page, testId: string, ...keys: string[]): Promise<void> {
  await page.getByTestId(testId).waitFor();
  await tabTo(
    page,
    (wanted) => document.activeElement?.getAttribute('data-testid') === wanted,
    testId,
  );
  for (const key of keys.length === 0 ? ['Enter'] : keys) await page.keyboard.press(key);
}

async function tabTo(page: Page, isThere: (wanted: string) => boolean, wanted = ''): Promise<void> {
  for (let presses = 0; presses < MOST_PRESSES; presses += 1) {
    if (await page.evaluate(isThere, wanted)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab never comes to ${wanted}`);
}
