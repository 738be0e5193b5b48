/** Nitrogen test, evacuations with nitrogen between, and a leak hunt, as a technician enters them on the page. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { expectAccessible } from '../support/accessible.ts';
import {
  openBrowser,
  openDashboard,
  picture,
  untilReadings,
  untilShown,
} from '../support/dashboard.ts';
import { PlayedJob } from '../support/played-job.ts';

let browser: Browser;
let job: PlayedJob;

beforeAll(async () => {
  [browser, job] = await Promise.all([openBrowser(), PlayedJob.begin()]);
});
afterAll(async () => {
  await browser.close();
  await job.bridge.remove();
});

async function open(page: Page, panel: string): Promise<void> {
  await page.getByTestId('menu').click();
  await page.getByTestId(`open-${panel}`).click();
  await page.getByTestId(`${panel}-panel`).waitFor();
}

test('from the nitrogen test to the section with the leak', { timeout: 120_000 }, async () => {
  job.play(20, () => 140_000);
  const { page, complaints } = await openDashboard(browser, job.bridge.url);
  page.setDefaultTimeout(15_000);
  await untilShown(page, 'freshness', 'live');

  // Started an hour ago; a psi for each degree and a little more.
  await open(page, 'nitrogen');
  const form = page.getByTestId('nitrogen-form');
  await page.getByRole('radio', { name: 'psi (gauge)' }).check();
  const enter = async (pressure: string, temperature: string, when: string) => {
    await form.locator('input[name=pressure]').fill(pressure);
    await form.locator('input[name=temperature]').fill(temperature);
    await form.locator('input[name=when]').fill(when);
    await form.getByRole('button', { name: 'Enter', exact: true }).click();
  };
  await enter('1,500', '21', '');
  await expect.poll(() => form.getByRole('alert').innerText()).toContain('can’t be');
  await enter('500', '21', '-1 h');
  await page.getByTestId('nitrogen-results').getByText('Begun at').waitFor();
  await enter('440', '21.5', '');
  await page.getByTestId('nitrogen-said-headline').getByText('Leaks').waitFor();
  await expect.poll(() => page.getByTestId('nitrogen-detail').innerText()).toContain('(gauge)');
  await picture(page, 'nitrogen');
  await page.getByRole('button', { name: 'Take away: 440.0 psi (gauge)' }).click();
  await enter('501', '21.5', '');
  await page.getByTestId('nitrogen-said-headline').getByText('No loss seen').waitFor();
  await page.getByTestId('nitrogen-said').getByText('Undecided').waitFor();
  await page.getByTestId('close-panel').click();

  await open(page, 'cycles');
  await page.getByTestId('plan-form').locator('select[name=from]').selectOption('au-nz-triple');
  await page.getByTestId('plan-form').getByRole('button', { name: 'Enter', exact: true }).click();
  await page
    .getByTestId('cycles-next')
    .getByText('Evacuation 1 of 3: down to 4500 micron')
    .waitFor();
  await page.getByTestId('close-panel').click();
  await job.mark('pump_on');
  job.pullDown(240, 140_000, 1500, 25);
  await job.mark('nitrogen_break');
  job.play(60, () => 150_000);
  await job.mark('pump_on');
  job.pullDown(400, 140_000, 180, 35);
  await page.getByTestId('cycle-line').getByText('break it with dry nitrogen').waitFor();
  await open(page, 'cycles');
  await expect.poll(() => page.getByTestId('cycles-told').innerText()).toContain('reached');
  await picture(page, 'cycles');
  await page.getByTestId('close-panel').click();

  await job.mark('isolated');
  await open(page, 'hunt');
  const sees = page.getByTestId('sees-now');
  /** A tap is of the moment that the page has come to. */
  const hold = async (micronAt: (sinceS: number) => number, lengthS = 240) => {
    job.play(lengthS, micronAt);
    await untilReadings(page, job.nowS + 1);
  };
  const add = async (name: string) => {
    await page.locator('input[name=section]').fill(name);
    await page.getByRole('button', { name: 'It sees this one' }).click();
    await sees.getByRole('button', { name, exact: true, pressed: true }).waitFor();
  };
  // In four minutes what walls give off slowly would look like this too.
  await hold((s) => 180 + 0.2 * s, 600);
  await sees.getByRole('button', { name: 'The sensor alone' }).click();
  await sees.getByRole('button', { name: 'The sensor alone', pressed: true }).waitFor();
  await hold(() => 230);
  await add('Indoor coil');
  await hold(() => 230);
  await add('Liquid line');
  await hold((s) => 230 + 1.2 * s);
  await page.getByTestId('hunt-said').getByText('The leak is in: Liquid line').waitFor();
  await expect.poll(() => page.getByTestId('hunt-holds').getByRole('listitem').count()).toBe(4);
  await expect
    .poll(() => page.getByTestId('hunt-said').innerText())
    .toContain('joints are excluded');
  await picture(page, 'hunt');
  await expectAccessible(page);

  expect(complaints).toEqual([]);
});
