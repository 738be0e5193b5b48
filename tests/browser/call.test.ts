/** A rehearsal on the page from its choice to the reveal, with a call, and the list of calls. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser, openDashboard, picture, untilShown } from '../support/dashboard.ts';
import { jumpToHold } from '../support/rehearsing.ts';
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

test('a trainee chooses, works, calls, and sees what it was', { timeout: 240_000 }, async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await choose(page);
  await untilShown(page, 'stage', 'pull_down');

  // What changes nothing is said in plain words, and is no mark.
  await page.getByTestId('more-marks').click();
  await page.getByTestId('mark-sections_opened').click();
  const notice = page.getByTestId('notice');
  await notice.waitFor();
  await expect.poll(() => notice.innerText()).toContain('inner valves');
  await notice.getByRole('button').click();

  await jumpToHold(page);
  await untilShown(page, 'verdict', 'leak_and_moisture');
  await expect.poll(() => page.getByTestId('reveal').count()).toBe(0);
  await page.getByTestId('call').click();
  await page.getByTestId('pick-cause').getByRole('radio', { name: 'Leak and moisture' }).check();
  await page.locator('input[name="sure"]').fill('70');
  await expect.poll(() => page.locator('input[name="sure-slider"]').inputValue()).toBe('70');
  await expect.poll(() => page.getByTestId('truth').count()).toBe(0);
  await picture(page, 'call');
  await page.getByTestId('make-call').click();
  await page.getByTestId('go-on-first').click();
  await expect.poll(() => page.getByTestId('called').innerText()).toContain('Leak and moisture');

  await page.getByTestId('reveal').click();
  const panel = page.getByTestId('reveal-panel');
  await panel.waitFor();
  await expect
    .poll(() => page.getByTestId('outcome').innerText())
    .toMatch(/^Right: leak and moisture/u);
  await expect.poll(() => page.getByTestId('truth').innerText()).toContain('flare nut');
  await expect.poll(() => page.getByTestId('told').innerText()).toContain('same job in order');
  await expect
    .poll(() => page.getByTestId('debrief').locator('[data-finding=right_call]').count())
    .toBe(1);
  await picture(page, 'reveal');
  await untilShown(page, 'freshness', 'ended');

  await panel.getByTestId('open-results').click();
  const result = page.getByTestId('results-panel').getByRole('listitem');
  await result.waitFor();
  await expect.poll(() => result.innerText()).toMatch(/Right\s+Town archive in Weir Street/u);
  await expect.poll(() => result.innerText()).toMatch(/Leak and moisture, 70\s%/u);
  await expect.poll(() => page.getByTestId('score').innerText()).toMatch(/takes 5 calls/u);

  // The reveal is remembered by the browser; the bridge would tell it again, too.
  await page.reload();
  await page.getByTestId('what-told').click();
  await page.getByTestId('truth').waitFor();
  expect(complaints.filter((one) => !one.includes('409'))).toEqual([]);
  await page.context().close();
});

async function choose(page: Page): Promise<void> {
  await page.getByTestId('rehearse-now').click();
  await page.locator('input[name="trainee"]').fill('Ines');
  await page.getByRole('radio', { name: '×60', exact: true }).check();
  await page.getByTestId('rehearsal-weir-street-archive').locator('summary').click();
  await page.getByTestId('start-weir-street-archive').click();
}
