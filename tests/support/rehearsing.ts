/** A rehearsal on the page, for browser tests. */
import type { Browser, Page } from 'playwright-core';
import { expect } from 'vitest';
import { recordingDetailSchema } from '../../protocol/api.ts';
import type { Mark } from '../../protocol/mark.ts';
import { openDashboard, shown, untilShown } from './dashboard.ts';
import type { Dashboard, Opening } from './dashboard.ts';

/**
 * From the page to a running rehearsal, as a trainee would, with a seed that does not vary.
 * @param rate slower where what passes has to be caught by a busy machine
 */
export async function rehearse(
  browser: Browser,
  url: string,
  name: string,
  opening: Opening = {},
  rate: '×60' | '×120' = '×120',
): Promise<Dashboard> {
  const dashboard = await openDashboard(browser, url, opening);
  const { page } = dashboard;
  await page.evaluate(() => {
    crypto.getRandomValues = (array) => {
      if (array instanceof Uint32Array) array.fill(1);
      return array;
    };
  });
  const first = page.getByTestId('rehearse-now');
  if (await first.isVisible()) await first.click();
  else {
    await page.getByTestId('menu').click();
    await page.getByTestId('open-rehearse').click();
  }
  await page.getByRole('radio', { name: rate, exact: true }).check();
  await page.getByTestId(`rehearsal-${name}`).locator('summary').click();
  await page.getByTestId(`start-${name}`).click();
  return dashboard;
}

/** Stops the rehearsal for good, which is asked first. */
export async function endRehearsal(page: Page): Promise<void> {
  await page.getByTestId('stop').click();
  await page.getByTestId('stop-now').click();
  await page.getByTestId('another').waitFor();
}

/** The helper's events one by one until the valve is off: nobody waits for a pull-down that is not looked at. */
export async function jumpToHold(
  page: Page,
  jump = () => page.getByTestId('jump').click(),
): Promise<void> {
  for (;;) {
    const marks = await marksOf(page);
    if (marks.some(({ kind }) => kind === 'isolated')) break;
    await jump();
    await expect
      .poll(async () => (await marksOf(page)).length, { timeout: 20_000 })
      .toBeGreaterThan(marks.length);
  }
  await untilShown(page, 'stage', 'rise');
}

async function marksOf(page: Page): Promise<readonly Mark[]> {
  const address = new URL(`/api/recordings/${await shown(page, 'recording')}`, page.url());
  return recordingDetailSchema.parse(await (await fetch(address)).json()).marks;
}
