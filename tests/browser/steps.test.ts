/** A job sheet is prepared without a sensor, taken over with one tap, and the steps lead through to closed valves. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { expectAccessible } from '../support/accessible.ts';
import { openBrowser, openDashboard, picture, untilShown } from '../support/dashboard.ts';
import { readInScenario } from '../support/file-of-scenario.ts';
import { PlayedJob } from '../support/played-job.ts';
import { runBridge, type RunningBridge } from '../support/running-bridge.ts';
import { typeInReading } from '../support/typed-reading.ts';

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

test('prepared in the van, taken over, and closed up step by step', async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await page.getByTestId('prepare-sheet').click();
  await page.getByTestId('new-prepared').click();
  await page.locator('input[name=site]').fill('Ropewalk 7');
  await page.getByTestId('sheet-system').locator('summary').click();
  await page.locator('select[name=refrigerant]').selectOption('R-290');
  await expect
    .poll(() => page.getByTestId('safety-class').innerText())
    .toMatch(/Safety class A3.*ignition sources/su);
  await page.getByTestId('sheet-place').locator('summary').click();
  await page.locator('input[name=altitudeM]').fill('1500');
  await expect.poll(() => page.getByTestId('atmosphere').innerText()).toContain('84.6 kPa');
  await expectAccessible(page);
  await picture(page, 'prepared');
  await page.getByTestId('keep-prepared').click();
  await page.getByTestId('prepared-1').waitFor();
  await page.getByTestId('close-panel').click();

  await typeInReading(bridge.url, 90_000);
  await page.getByTestId('take-over').click();
  await expect.poll(() => page.getByTestId('job').innerText()).toBe('Ropewalk 7');
  await page.getByTestId('prepared-strip').waitFor({ state: 'detached' });

  // One tap from the live screen, and the next one in the same words.
  await page.getByTestId('work-hook_up').click();
  await page.getByTestId('tick-pump_check').click();
  await expect
    .poll(() => page.getByTestId('step-pump_check').getAttribute('data-state'))
    .toBe('done');
  await expect.poll(() => page.getByTestId('step-pump_check').innerText()).toContain('by hand');
  const todo = await page.getByTestId('todo').textContent();
  await expect.poll(() => page.getByTestId('steps-next').innerText()).toContain(todo);
  await page.getByTestId('all-steps').click();
  await page.getByTestId('steps-panel').waitFor();
  await expectAccessible(page);
  await page.getByTestId('close-panel').click();
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('a hold that passed leads to the closing steps, on a phone as well', async () => {
  const id = await readInScenario(bridge.url, 'quarry-road-bakery', 'Quarry Road');
  const context = { viewport: { width: 390, height: 844 } };
  const { page, complaints } = await openDashboard(browser, bridge.url, { context });
  await page.getByTestId('menu').click();
  await page.getByTestId('open-recordings').click();
  await page.getByTestId(`job-${id}-0`).getByRole('button', { name: 'Open' }).click();
  await page.locator('[data-step=close_up]').waitFor();
  await page.getByTestId('prompt-cores_in').click();
  await page.getByTestId('prompt-tool_closed').click();
  await page.getByTestId('work-closing_up').click();
  const stateOf = (step: string) => page.getByTestId(`step-${step}`).getAttribute('data-state');
  await expect.poll(() => stateOf('tool_closed')).toBe('done');
  await expect.poll(() => stateOf('sensor_isolated')).toBe('now');
  await expect
    .poll(() => page.getByTestId('step-valves_opened').innerText())
    .toContain('Common practice, no source.');
  await expectAccessible(page);
  await picture(page, 'closing-up-phone');
  expect(complaints).toEqual([]);
  await page.context().close();
});

const tight = (s: number) => 205 + 15 * (1 - Math.exp(-s / 60));

test('once the sensor is shut off, its number is of its stub, and it is said up to when was judged', async () => {
  const job = await PlayedJob.begin();
  job.play(5, () => 700_000);
  const { page, complaints } = await openDashboard(browser, job.bridge.url);
  await untilShown(page, 'freshness', 'live');
  await job.mark('pump_on');
  job.pullDown(400, 700_000, 200, 25);
  await job.mark('isolated');
  job.play(900, tight);
  await untilShown(page, 'verdict', 'tight_dry');
  await expect.poll(() => page.getByTestId('shut-off').count()).toBe(0);
  await job.mark('sensor_isolated');
  job.play(60, () => tight(900));
  const note = page.getByTestId('small-print').getByTestId('shut-off');
  await note.getByText(/^Judged up to \d\d:\d\d: then the sensor was shut off/u).waitFor();
  await expect
    .poll(() => page.getByTestId('trend').innerText())
    .toContain('the sensor’s stub only');
  await expect.poll(() => page.getByTestId('reading').getAttribute('data-of')).toBe('stub');
  await untilShown(page, 'verdict', 'tight_dry');
  await picture(page, 'shut-off');
  await page.getByTestId('work-closing_up').click();
  await page.getByTestId('work-panel').getByTestId('shut-off').waitFor();
  await picture(page, 'shut-off-panel');
  expect(complaints).toEqual([]);
  await page.context().close();
  await job.bridge.remove();
});
