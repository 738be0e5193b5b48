/** One click from the verdict: its numbers, and a pass rule chosen on the job sheet beside it. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { expectAccessible } from '../support/accessible.ts';
import { openBrowser, picture, untilShown } from '../support/dashboard.ts';
import { jumpToHold, rehearse } from '../support/rehearsing.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

let bridge: RunningBridge;
let browser: Browser;

beforeAll(async () => {
  [bridge, browser] = await Promise.all([runBridge(), openBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
});

test('what is entered on the sheet shows behind the verdict', { timeout: 180_000 }, async () => {
  const { page, complaints } = await rehearse(browser, bridge.url, 'weir-street-archive');
  await page.getByTestId('rehearsal-badge').waitFor();
  await untilShown(page, 'stage', 'pull_down');
  await jumpToHold(page);
  await untilShown(page, 'verdict', 'leak_and_moisture');
  // Its hold is over soon after: then what stands there stays, and nobody has to be in time to pause it.
  await page.getByTestId('another').waitFor();

  const numbers = page.getByTestId('numbers');
  await numbers.locator('summary').click();
  await expect
    .poll(() => numbers.innerText())
    .toContain('volume missing → enter it in the job sheet');
  await expectAccessible(page);
  await picture(page, 'numbers-open');

  await page.getByTestId('menu').click();
  await page.getByTestId('open-sheet').click();
  const sheet = page.getByTestId('sheet-panel');
  await sheet.locator('select[name="passRule"]').selectOption('ufgs-15182');
  await expect.poll(() => sheet.getByTestId('rule-asks').innerText()).toContain('UFGS-15182');
  await expect.poll(() => sheet.locator('input[name="holdS"]').inputValue()).toBe('60');
  await sheet.locator('input[name="volumeM3"]').fill('12');
  await sheet.getByTestId('sheet-more').locator('summary').click();
  await sheet.locator('input[name="gaugeErrorShare"]').fill('a tenth');
  await expectAccessible(page);
  await sheet.getByRole('button', { name: 'Enter' }).click();
  // What can't be read keeps its place open to be put right.
  await sheet.getByRole('alert').waitFor();
  await sheet.locator('input[name="gaugeErrorShare"]').fill('5');
  await expect.poll(() => sheet.getByTestId('sheet-more').getAttribute('open')).not.toBeNull();
  await sheet.getByRole('button', { name: 'Enter' }).click();
  await sheet.waitFor({ state: 'detached' });

  const rule = page.getByTestId('rule');
  await expect.poll(() => rule.innerText()).toContain('UFGS-15182');
  await expect.poll(() => numbers.innerText()).toContain('In mbar·L/s');
  const told = await numbers.innerText();
  expect(told).toContain('5 % of the reading');
  expect(told).toContain('This rule passes a steady inflow of up to');
  // The physics first.
  const [headlineBox, ruleBox] = [
    await page.getByTestId('headline').boundingBox(),
    await rule.boundingBox(),
  ];
  expect(headlineBox?.y).toBeLessThan(ruleBox?.y ?? 0);
  expect(headlineBox?.height).toBeGreaterThan(0);
  expect(complaints).toEqual([]);
  await page.context().close();
});
