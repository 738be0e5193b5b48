/** The page for everyone: every screen in every look, enlarged, held upright or across, without motion. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, afterEach, expect, test } from 'vitest';
import { expectAccessible, expectLegible } from '../support/accessible.ts';
import { openBrowser, openDashboard, picture } from '../support/dashboard.ts';
import { visitEachScreen } from '../support/every-screen.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

const LOOKS = ['day', 'night', 'sun'] as const;
const LAPTOP = { width: 1280, height: 800 };
const SIZES = [
  { name: 'phone', width: 390, height: 844 },
  { name: 'phone-across', width: 844, height: 390 },
  { name: 'smallest-phone', width: 320, height: 568 },
  // A laptop’s, enlarged to 200 %: WCAG 2.2, success criterion 1.4.4.
  { name: 'twice-as-large', width: 640, height: 400 },
];
/** Least size of what is touched, px: WCAG 2.2, success criterion 2.5.5. */
const LEAST_TOUCHED = 44;

let bridge: RunningBridge;
let browser: Browser;

beforeAll(async () => {
  browser = await openBrowser();
});
beforeEach(async () => {
  bridge = await runBridge();
});
afterEach(() => bridge.remove());
afterAll(() => browser.close());

test('no screen, in any look, breaks a rule that a machine can check', async () => {
  await visitEachScreen(browser, bridge.url, async (page, screen) => {
    for (const look of LOOKS) {
      await page.evaluate((chosen) => (document.documentElement.dataset['look'] = chosen), look);
      if (look === LOOKS[0]) await expectAccessible(page);
      else await expectLegible(page);
      await picture(page, `${screen}-${look}`);
    }
  });
}, 300_000);

test('at any size nothing runs off the side, and all that is touched is large enough', async () => {
  await visitEachScreen(browser, bridge.url, async (page, screen) => {
    for (const { name, ...size } of SIZES) {
      await page.setViewportSize(size);
      const width = await page.evaluate(() => document.documentElement.scrollWidth);
      expect(width, `${screen}, ${name}`).toBeLessThanOrEqual(size.width);
      await expect.poll(() => tooSmall(page), { message: `${screen}, ${name}` }).toEqual([]);
      await picture(page, `${screen}-${name}`);
    }
    await page.setViewportSize(LAPTOP);
  });
}, 300_000);

test('where less motion is wished for, nothing moves by itself', async () => {
  const { page } = await openDashboard(browser, bridge.url);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  const moving = await page.evaluate(() => document.getAnimations().length);
  expect(moving).toBe(0);
  await page.context().close();
});

test.each([
  [{ colorScheme: 'dark' }, 'night'],
  [{ colorScheme: 'light' }, 'day'],
  [{ colorScheme: 'light', contrast: 'more' }, 'sun'],
] as const)('the look follows the system: %o is %s', async (media, look) => {
  const { page } = await openDashboard(browser, bridge.url);
  await page.emulateMedia(media);
  await expect.poll(() => page.evaluate(() => document.documentElement.dataset['look'])).toBe(look);
  await page.context().close();
});

test('a chosen look is remembered, and the system’s no longer counts', async () => {
  const { page } = await openDashboard(browser, bridge.url);
  await page.emulateMedia({ colorScheme: 'light' });
  await page.getByTestId('look').click();
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.reload();
  await page.getByTestId('nothing-yet').waitFor();
  await expect
    .poll(() => page.evaluate(() => document.documentElement.dataset['look']))
    .toBe('sun');
  await page.context().close();
});

/** What of a screen's controls is smaller than a finger in a glove: its words and its size. */
function tooSmall(page: Page): Promise<string[]> {
  return page.evaluate((least) => {
    const top = document.querySelector('dialog[open]') ?? document.body;
    const controls = top.querySelectorAll<HTMLElement>(
      'button, select, summary, a[href], input:not([type=radio]):not([type=checkbox])',
    );
    return [...controls].flatMap((control) => {
      const { width, height } = control.getBoundingClientRect();
      if (width === 0 || (width >= least && height >= least)) return [];
      return [`${control.innerText || control.tagName}: ${width} × ${height}`];
    });
  }, LEAST_TOUCHED);
}
