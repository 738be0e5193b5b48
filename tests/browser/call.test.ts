/** A trainee works a rehearsal with their own hands, calls it, has it revealed and looks back. */
import type { Browser, Page } from 'playwright-core';
import { AxeBuilder } from '@axe-core/playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import {
  openBrowser,
  openDashboard,
  pageReadings,
  picture,
  untilReadings,
  untilShown,
} from '../support/dashboard.ts';
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

/** No rule of WCAG A or AA is broken on what is open. */
async function expectAccessible(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa'])
    .analyze();
  expect(violations.map(({ id, nodes }) => [id, nodes.map(({ target }) => target)])).toEqual([]);
}

async function openMenu(page: Page, entry: string): Promise<void> {
  await page.getByTestId('menu').click();
  await page.getByTestId(`open-${entry}`).click();
}

test('from the choice to the results', { timeout: 240_000 }, async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await page.getByTestId('rehearse-now').click();
  await page.getByRole('radio', { name: '×120', exact: true }).check();
  await page.getByLabel('A helper works pump and valves').uncheck();
  await page.getByLabel('Number, to repeat one').fill('7');
  await picture(page, 'choosing');
  await expectAccessible(page);
  await page.getByTestId('start-station-road-florist').click();

  // Nothing may tell what it is before the call.
  await page.getByTestId('mark-pump_on').click();
  await untilShown(page, 'stage', 'pull_down');
  expect(await page.locator('body').innerText()).not.toMatch(/fouled|old oil/iu);
  await page.getByTestId('mark-ballast_closed').click();
  // Ten minutes on, and then the cure: the curve goes deeper at once.
  await page.getByTestId('jump').click();
  await expect
    .poll(async () => (await pageReadings(page)).at(-1)?.elapsedS ?? 0, { timeout: 60_000 })
    .toBeGreaterThan(600);
  await page.getByTestId('more').click();
  await expectAccessible(page);
  await page.getByTestId('mark-oil_changed').click();
  await page.getByTestId('close-panel').click();
  await expect
    .poll(async () => (await pageReadings(page)).at(-1)?.pressurePa ?? Infinity, {
      timeout: 120_000,
    })
    .toBeLessThan(70);

  await page.getByTestId('call').click();
  await page.getByTestId('cause-pump_or_oil').check();
  await page.locator('input[name="sure"]').fill('80');
  await page.locator('input[name="trainee"]').fill('R. Sample');
  await picture(page, 'call');
  await expectAccessible(page);
  await page.getByTestId('make-call').click();

  expect(await page.getByTestId('truth').innerText()).toBe('The pump or its oil');
  expect(await page.getByTestId('called').innerText()).toMatch(/^Right\..*80 % sure/u);
  expect(await page.getByTestId('told').innerText()).toMatch(/^From \d/u);
  const findings = await page.getByTestId('findings').innerText();
  expect(findings).toContain('oil changed');
  expect(findings).toContain('never shut');
  await picture(page, 'reveal');
  await expectAccessible(page);

  await page.getByTestId('show-results').click();
  await page.getByTestId('result').waitFor();
  expect(await page.getByTestId('results-panel').innerText()).toMatch(
    /station road florist[^]*Right: The pump or its oil, 80 % sure/iu,
  );
  expect(await page.getByTestId('score').innerText()).toContain('too few');
  await picture(page, 'results');
  await expectAccessible(page);
  await page.getByTestId('close-panel').click();
  expect(await page.getByTestId('revealed').innerText()).toContain('The pump or its oil');
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('begun again it is the same, reading by reading', { timeout: 120_000 }, async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await openMenu(page, 'rehearse');
  await page.getByRole('radio', { name: '×120', exact: true }).check();
  await page.getByLabel('Number, to repeat one').fill('11');
  await page.getByTestId('start-generated-plain').click();
  const first90 = async () => {
    await untilReadings(page, 90);
    return (await pageReadings(page)).slice(0, 90).map(({ pressurePa }) => pressurePa);
  };
  const before = await first90();
  const recordingBefore = await page.evaluate(() => document.documentElement.dataset['recording']);
  await page.getByTestId('more').click();
  await page.getByTestId('restart').click();
  await page.waitForFunction(
    (old) => document.documentElement.dataset['recording'] !== old,
    recordingBefore,
  );
  expect(await first90()).toEqual(before);
  expect(complaints).toEqual([]);
  await page.context().close();
});
