/** An old recording, looked at while another one runs: nothing of the running one stands over it. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser, picture, untilOtherRecording, untilShown } from '../support/dashboard.ts';
import { rehearse } from '../support/rehearsing.ts';
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

test('it is called finished, by its own name', { timeout: 120_000 }, async () => {
  const { page, complaints } = await rehearse(browser, bridge.url, 'weir-street-archive');
  await untilShown(page, 'stage', 'pull_down');
  const first = await page.evaluate(() => document.documentElement.dataset['recording'] ?? '');
  await page.getByTestId('stop').click();
  await page.getByTestId('another').click();
  await page.getByTestId('rehearsal-quarry-road-bakery').locator('summary').click();
  await page.getByTestId('start-quarry-road-bakery').click();
  await untilOtherRecording(page, first);
  await page.getByTestId('connection-state').getByText('live').waitFor();

  await page.getByTestId('menu').click();
  await page.getByTestId('open-recordings').click();
  await page.getByTestId(`recording-${first}`).getByRole('button').first().click();
  const state = page.getByTestId('connection-state');
  await expect.poll(() => state.innerText()).toContain('finished');
  expect(await state.innerText()).not.toContain('live');
  expect(await page.getByTestId('job').innerText()).toContain('weir street');
  await page.getByText('Its alerts still call you').waitFor();
  await picture(page, 'old-recording');
  expect(complaints).toEqual([]);
  await page.context().close();
});
