/** A job sheet is prepared by its panels before there is a reading, and all of it comes to the job that takes it over. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { preparedSheetListSchema } from '../../protocol/prepared-sheet.ts';
import { expectAccessible } from '../support/accessible.ts';
import { openBrowser, openDashboard, picture } from '../support/dashboard.ts';
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

const enter = (page: Page, form: string) =>
  page.getByTestId(form).getByRole('button', { name: 'Enter', exact: true }).click();

async function openFromMenu(page: Page, name: string): Promise<void> {
  await page.getByTestId('menu').click();
  await page.getByTestId(`open-${name}`).click();
  await page.getByTestId(`${name}-panel`).waitFor();
}

test('sections, a nitrogen test and a plan are prepared, and come to the job', async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  page.setDefaultTimeout(30_000);
  await page.getByTestId('prepare-sheet').click();
  await page.getByTestId('new-prepared').click();
  await page.locator('input[name=site]').fill('Ropewalk 7');
  // What was typed is kept on the way to another panel.
  await page.getByTestId('prepare-volume').click();
  const which = page.locator('select[name=prepared-sheet] option:checked');
  await expect.poll(() => which.innerText()).toBe('Ropewalk 7');
  await page.locator('select[name=preset]').selectOption('whole_split');
  await page.getByTestId('fill-preset').click();
  await enter(page, 'volume-panel');
  await page.getByTestId('take-volume').first().click();
  await page.getByTestId('volume-result').getByText('On the sheet').waitFor();
  await expectAccessible(page);
  await picture(page, 'prepared-volume');
  await page.getByTestId('to-prepared-sheet').click();
  await expect.poll(() => page.locator('input[name=site]').inputValue()).toBe('Ropewalk 7');

  await page.getByTestId('prepare-nitrogen').click();
  await page.getByRole('radio', { name: 'psi (gauge)' }).check();
  const form = page.getByTestId('nitrogen-form');
  for (const [pressure, when] of [
    ['500', '-2 h'],
    ['500.5', '-1 h'],
  ] as const) {
    await form.locator('input[name=pressure]').fill(pressure);
    await form.locator('input[name=temperature]').fill('21');
    await form.locator('input[name=when]').fill(when);
    await enter(page, 'nitrogen-form');
    await page.getByTestId('nitrogen-readings').getByText(pressure).waitFor();
  }
  await page.getByTestId('nitrogen-said-headline').getByText('No loss seen').waitFor();
  await page.getByTestId('close-panel').click();

  // The menu leads to the same sheet while nothing is recorded.
  await openFromMenu(page, 'cycles');
  await expect.poll(() => which.innerText()).toBe('Ropewalk 7');
  await page.getByTestId('plan-form').locator('select[name=from]').selectOption('au-nz-triple');
  await enter(page, 'plan-form');
  await untilAllIsKept(page);

  await readingComes(90_000);
  await page.getByTestId('take-over').click();
  await expect.poll(() => page.getByTestId('job').innerText()).toBe('Ropewalk 7');
  await openFromMenu(page, 'volume');
  await expect.poll(() => page.getByTestId('which-prepared').count()).toBe(0);
  await expect.poll(() => page.getByTestId('rows-sections').locator('.row-fields').count()).toBe(3);
  await page.getByTestId('volume-result').getByText('On the sheet').waitFor();
  await page.getByTestId('close-panel').click();
  await openFromMenu(page, 'nitrogen');
  await page.getByTestId('nitrogen-said-headline').getByText('No loss seen').waitFor();
  await expect
    .poll(() => page.getByTestId('nitrogen-readings').getByRole('listitem').count())
    .toBe(2);
  await page.getByTestId('close-panel').click();
  await openFromMenu(page, 'cycles');
  await page.getByTestId('cycles-next').getByText('Evacuation 1 of 3').waitFor();
  await page.getByTestId('close-panel').click();
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('what a job says already stays, and a strip says so until it is put away', async () => {
  await fetch(new URL('api/prepared-sheets', bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ prepared: null, fields: { site: 'Net loft', serial: 'N-1' } }),
  });
  const { page, complaints } = await openDashboard(browser, bridge.url);
  page.setDefaultTimeout(30_000);
  await openFromMenu(page, 'prepared');
  await page.getByTestId('take-over-2').click();
  const strip = page.getByTestId('left-out');
  await strip.waitFor();
  await expect.poll(() => strip.innerText()).toMatch(/keeps as it stands: Site\b/u);
  await expect.poll(() => strip.innerText()).not.toContain('Serial');
  await expect.poll(() => page.getByTestId('job').innerText()).toBe('Ropewalk 7');
  await strip.getByRole('button', { name: 'Close' }).click();
  await strip.waitFor({ state: 'detached' });
  await page.getByTestId('job').click();
  await expect.poll(() => page.locator('input[name=serial]').inputValue()).toBe('N-1');
  expect(complaints).toEqual([]);
  await page.context().close();
});

/** The bridge has all of it: another page finds it there. */
async function untilAllIsKept(page: Page): Promise<void> {
  await page.getByTestId('cycles-panel').waitFor();
  await expect.poll(preparedFields).toMatchObject({ site: 'Ropewalk 7', triplePlan: {} });
  expect(Object.keys(await preparedFields()).sort()).toEqual([
    'joins',
    'nitrogenReadings',
    'sections',
    'site',
    'triplePlan',
    'tubes',
    'vessels',
    'volumeM3',
  ]);
  await page.getByTestId('close-panel').click();
}

async function preparedFields(): Promise<object> {
  const answer = await fetch(new URL('api/prepared-sheets', bridge.url));
  return preparedSheetListSchema.parse(await answer.json()).sheets[0]?.fields ?? {};
}

function readingComes(pressurePa: number): Promise<unknown> {
  return typeInReading(bridge.url, pressurePa);
}
