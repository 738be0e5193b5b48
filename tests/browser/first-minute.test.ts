/** An empty installation: a newcomer is at a rehearsal after one click, and at their sensor after two. */
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { PROBLEMS } from '../../protocol/problems.ts';
import { expectAccessible } from '../support/accessible.ts';
import { openBrowser, openDashboard, picture, untilShown } from '../support/dashboard.ts';
import { radioWith } from '../support/radio-with.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

let bridge: RunningBridge | undefined;
let browser: Browser;

beforeAll(async () => {
  browser = await openBrowser();
});
afterEach(async () => {
  await bridge?.remove();
  bridge = undefined;
});
afterAll(() => browser.close());

test('one click begins a rehearsal, and its pull-down shows', { timeout: 120_000 }, async () => {
  bridge = await runBridge();
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await page.getByTestId('rehearse-first').click();
  await page.getByTestId('rehearsal-badge').waitFor();
  await untilShown(page, 'stage', 'pull_down');
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('all jobs are one click away as well', async () => {
  bridge = await runBridge();
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await page.getByTestId('rehearse-now').click();
  await page.getByTestId('rehearsal-quarry-road-bakery').waitFor();
  expect(complaints).toEqual([]);
  await page.context().close();
});

test.each([
  ['no_bluetooth', 'adapter'],
  ['adapter_off', 'bluetooth'],
  ['no_permission', 'sudo setcap'],
] as const)('%s: the page says so, and the steps on this computer', async (problem, step) => {
  bridge = await runBridge({ sensors: radioWith(problem), platform: 'linux' });
  const { page } = await openDashboard(browser, bridge.url);
  await expect.poll(() => page.getByTestId('problem').innerText()).toBe(PROBLEMS[problem].meaning);
  await expect.poll(() => page.getByTestId('bluetooth-steps').innerText()).toContain(step);
  await picture(page, `first-minute-${problem}`);
  await expectAccessible(page);
  await page.context().close();
});

test('another system’s bridge tells its own steps', async () => {
  bridge = await runBridge({ sensors: radioWith('no_permission'), platform: 'macos' });
  const { page } = await openDashboard(browser, bridge.url);
  await expect
    .poll(() => page.getByTestId('bluetooth-steps').innerText())
    .toContain('System Settings');
  await page.context().close();
});
