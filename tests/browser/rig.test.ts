/** The rig is entered on the page, and the page says what it should manage. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { openBrowser, openDashboard, picture, untilShown } from '../support/dashboard.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

/** A busy machine takes several times as long. */
vi.setConfig({ testTimeout: 90_000 });

let bridge: RunningBridge;
let browser: Browser;

beforeAll(async () => {
  [bridge, browser] = await Promise.all([runBridge(), openBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
});

test('with volume, pump and hose entered there are times and a part that limits', async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await page.getByTestId('rehearse-now').click();
  await page.getByRole('radio', { name: '×20', exact: true }).check();
  await page.getByTestId('rehearsal-quarry-road-bakery').locator('summary').click();
  await page.getByTestId('start-quarry-road-bakery').click();
  await page.getByTestId('rehearsal-badge').waitFor();

  await page.getByTestId('menu').click();
  await page.getByTestId('open-rig').click();
  await expect.poll(() => page.getByTestId('rig-missing').innerText()).toContain('volume');
  // Ten times what is really there: the pull-down will look too fast.
  const entries = { volumeM3: '42', pumpDisplacementM3PerS: '113', hoseBoreM: '6' };
  for (const [field, text] of Object.entries(entries)) {
    await page.locator(`input[name=${field}]`).fill(text);
  }
  await page.getByRole('button', { name: 'Enter', exact: true }).click();
  await expect
    .poll(() => page.getByTestId('rig-missing').innerText())
    .toMatch(/missing: the hose’s length\.$/u);
  await page.locator('input[name=hoseLengthM]').fill('1.5');
  await page.getByRole('button', { name: 'Enter', exact: true }).click();

  const result = await page.getByTestId('rig-result').innerText();
  expect(result).toMatch(/To the target, 500 micron\s+about \d+ min/u);
  expect(result).toContain('the hose holds it back most');
  await picture(page, 'rig');
  await page.getByTestId('close-panel').click();

  await untilShown(page, 'stage', 'pull_down');
  await page.getByTestId('faster').waitFor();
  await picture(page, 'rig-expected');
  expect(complaints).toEqual([]);
});

test('lines and valves make a volume, which is taken over by a tap; other gear stands beside', async () => {
  const own = await runBridge();
  const { page, complaints } = await openDashboard(browser, own.url);
  await page.getByTestId('rehearse-now').click();
  await page.getByTestId('rehearsal-quarry-road-bakery').locator('summary').click();
  await page.getByTestId('start-quarry-road-bakery').click();
  await page.getByTestId('rehearsal-badge').waitFor();
  await page.getByTestId('menu').click();
  await page.getByTestId('open-volume').click();
  await page.locator('select[name=preset]').selectOption('whole_split');
  await page.getByTestId('fill-preset').click();
  await page.getByRole('button', { name: 'Enter', exact: true }).click();
  // Of the valves to the outdoor coil nobody knows how they stand: both answers.
  await expect.poll(() => page.getByTestId('take-volume').count()).toBe(2);
  await picture(page, 'volume');
  await page.getByTestId('take-volume').first().click();
  await expect
    .poll(() => page.getByTestId('volume-result').innerText())
    .toMatch(/On the sheet: [\d.]+ L/u);
  await page.getByTestId('close-panel').click();

  await page.getByTestId('menu').click();
  await page.getByTestId('open-rig').click();
  // A pump of six litres a minute there is not: nothing is entered before somebody has said what is meant.
  await page.locator('input[name=pumpDisplacementM3PerS]').fill('6');
  await page.getByRole('button', { name: 'Enter', exact: true }).click();
  await page
    .getByTestId('unusual')
    .getByText('Pump, free air: 6 L/min is far from usual')
    .waitFor();
  await page.getByRole('button', { name: 'It is 6 cfm' }).click();
  await expect.poll(() => page.locator('select[name=displacement-unit]').inputValue()).toBe('cfm');
  await expect.poll(() => page.getByTestId('displacement-same').innerText()).toContain('170 L/min');
  await expect.poll(() => page.getByTestId('rig-missing').innerText()).toContain('displacement');
  const entries = { pumpDisplacementM3PerS: '4 cfm', hoseBoreM: '6', hoseLengthM: '1.5' };
  for (const [field, text] of Object.entries(entries)) {
    await page.locator(`input[name=${field}]`).fill(text);
  }
  await page.getByRole('button', { name: 'Enter', exact: true }).click();
  await expect
    .poll(() => page.getByTestId('rig-result').innerText())
    .toContain('of the pump’s 113 L/min');
  await expect.poll(() => page.getByTestId('rig-bars').count()).toBe(3);
  await page.getByTestId('what-if').locator('summary').click();
  await expect.poll(() => page.getByTestId('what-if-table').locator('tbody tr').count()).toBe(5);
  await picture(page, 'what-if');
  await page.getByTestId('rig-to-pump-check').click();
  const verdict = page.getByTestId('pump-verdict');
  await expect.poll(() => verdict.getAttribute('data-verdict')).toBe('wrong_view');
  await page.getByTestId('sees-pump').click();
  await expect.poll(() => verdict.getAttribute('data-verdict')).not.toBe('wrong_view');
  await page.getByTestId('close-panel').click();
  expect(complaints).toEqual([]);
  await page.context().close();
  await own.remove();
});
