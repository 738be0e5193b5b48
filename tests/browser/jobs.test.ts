/** The list of jobs in a browser: looked for, opened, laid behind, signed, split, put away, deleted. */
import { readFileSync } from 'node:fs';
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { recordingJsonSchema } from '../../protocol/recording-json.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { openBrowser, openDashboard, picture, untilShown } from '../support/dashboard.ts';
import { readInScenario } from '../support/file-of-scenario.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

let bridge: RunningBridge;
let browser: Browser;
let bakery = 0;
let archive = 0;

beforeAll(async () => {
  [bridge, browser] = await Promise.all([runBridge(), openBrowser()]);
  bakery = await readInScenario(bridge.url, 'quarry-road-bakery', 'Quarry Road');
  archive = await readInScenario(bridge.url, 'weir-street-archive', 'Weir Street');
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
});

async function list(page: Page): Promise<void> {
  await page.getByTestId('menu').click();
  await page.getByTestId('open-recordings').click();
}

async function downloaded(page: Page, link: Locator): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([page.waitForEvent('download'), link.click()]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

const row = (page: Page, recordingId: number) => page.getByTestId(`job-${recordingId}-0`);

test('a job is found, opened with its whole curve, and another laid behind it', async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await list(page);
  await row(page, archive).waitFor();
  await page.getByRole('searchbox').fill('quarry');
  await expect.poll(() => row(page, archive).count()).toBe(0);
  await expect.poll(() => row(page, bakery).innerText()).toContain('Tight and dry');
  await row(page, bakery).getByRole('button', { name: 'Open' }).click();
  await untilShown(page, 'recording', String(bakery));
  await untilShown(page, 'stage', 'rise');
  await page.getByTestId('headline').getByText('Tight and dry').waitFor();

  await list(page);
  // What one had looked for is still there.
  await expect.poll(() => page.getByRole('searchbox').inputValue()).toBe('quarry');
  await page.getByRole('searchbox').fill('');
  await page.getByRole('combobox', { name: 'Verdict' }).selectOption('leak_and_moisture');
  await row(page, archive).locator('summary').click();
  await row(page, archive).getByRole('button', { name: 'Compare' }).click();
  const strip = page.getByTestId('laid-behind');
  await strip.getByText('Weir Street').waitFor();
  await picture(page, 'laid-behind');
  const withIt = await chartPixels(page);
  await strip.getByRole('button', { name: 'Take it away' }).click();
  await expect.poll(() => chartPixels(page)).not.toBe(withIt);
  await expect.poll(() => strip.count()).toBe(0);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('it is signed, and the report says by whom and for which conclusion', async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await list(page);
  await row(page, bakery).getByRole('button', { name: 'Open' }).click();
  await untilShown(page, 'stage', 'rise');
  await page.getByTestId('menu').click();
  await page.getByTestId('open-sign').click();
  await page.getByLabel('Name').fill('R. Vane');
  await page.getByLabel('Remark').fill('Handed over to the baker.');
  await page.getByTestId('sign-panel').getByRole('button', { name: 'Sign off' }).click();
  await page.getByTestId('signed').getByText('R. Vane').waitFor();
  await page.getByTestId('close-panel').click();
  const address = `api/recordings/${bakery}/report?job=0`;
  const report = await (await fetch(new URL(address, bridge.url))).text();
  for (const said of ['R. Vane', 'Handed over to the baker.', 'Tight and dry, for the connected'])
    expect(report).toContain(said);
  await list(page);
  await expect.poll(() => row(page, bakery).innerText()).toContain('signed by R. Vane');
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('another job begins within a recording, and both are joined again', async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await list(page);
  await row(page, archive).getByRole('button', { name: 'Open' }).click();
  await untilShown(page, 'recording', String(archive));
  await untilShown(page, 'stage', 'rise');
  await page.getByTestId('menu').click();
  await page.getByTestId('open-new-job').click();
  await page.getByLabel('Site').fill('Weir Street, upstairs');
  await page.getByRole('button', { name: 'Begin the job' }).click();
  await expect.poll(() => page.getByTestId('job').innerText()).toContain('upstairs');
  await list(page);
  const jobs = page.locator('.job-list > li').filter({ hasText: 'Weir Street' });
  await expect.poll(() => jobs.count()).toBe(2);
  // The one before keeps its own site.
  await expect.poll(() => row(page, archive).innerText()).not.toContain('upstairs');
  await page.getByTestId('close-panel').click();
  await page.getByTestId('menu').click();
  await page.getByTestId('open-new-job').click();
  await page.getByTestId('join-jobs').click();
  // It asks: what was entered for one of the two may not hold for both.
  await page.getByRole('button', { name: 'Yes, make one job of the two' }).click();
  await untilShown(page, 'stage', 'rise');
  await list(page);
  await expect.poll(() => jobs.count()).toBe(1);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('it is put away, and deleted for good once that was asked twice', async () => {
  const doomed = await readInScenario(bridge.url, 'quarry-road-bakery', 'To be forgotten');
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await list(page);
  await row(page, doomed).locator('summary').click();
  await row(page, doomed).getByRole('button', { name: 'Archive' }).click();
  await expect.poll(() => row(page, doomed).count()).toBe(0);
  await page.getByRole('radio', { name: 'Archive' }).check();
  await row(page, doomed).locator('summary').click();
  await page.getByTestId('delete-job').click();
  await page.getByTestId('delete-yes-1').click();
  // A second thought changes nothing.
  await row(page, doomed).getByRole('button', { name: 'Keep it' }).click();
  await page.getByTestId('delete-job').click();
  await page.getByTestId('delete-yes-1').click();
  await page.getByTestId('delete-yes-2').click();
  await expect.poll(() => row(page, doomed).count()).toBe(0);
  expect((await fetch(new URL(`api/recordings/${doomed}`, bridge.url))).status).toBe(404);
  expect(complaints).toEqual([]);
  await page.context().close();
});

/** What is drawn, as one number. */
function chartPixels(page: Page): Promise<string> {
  return page.evaluate(() => document.querySelector('canvas')?.toDataURL() ?? '');
}

test('its files come from the list, and what a rehearsal gave stays one on the way back', async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await list(page);
  await page.getByTestId('back-up').waitFor();
  const backup = await downloaded(page, page.getByTestId('back-up'));
  expect(backup.name).toMatch(/^[\d-]{19}-ebbline-record\.sqlite$/u);
  expect(backup.bytes.subarray(0, 15).toString()).toBe('SQLite format 3');
  await row(page, archive).locator('summary').click();
  const link = (name: string) => row(page, archive).getByRole('link', { name, exact: true });
  const json = await downloaded(page, link('JSON'));
  const whole = recordingJsonSchema.parse(JSON.parse(json.bytes.toString()));
  expect(json.name).toMatch(/^[\d-]{19}-import-\d+\.json$/u);
  expect(whole.recording.origin).toBe('import');
  const csv = await downloaded(page, link('Full CSV'));
  // Both hold all of it, the one as columns and the other as rows.
  expect(csv.bytes.toString()).toContain(String(whole.readings.pressurePa.at(-1)));
  await expect.poll(() => page.getByTestId('rehearsal-badge').count()).toBe(0);
  await page.getByTestId('close-panel').click();

  // The same file, as a rehearsal's export would have it.
  const rehearsed = { ...whole, recording: { ...whole.recording, origin: 'rehearsal' } };
  const answer = await fetch(new URL('api/imports?name=played.json', bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(rehearsed),
  });
  const { id } = recordingSchema.parse(await answer.json());
  await list(page);
  await row(page, id).getByRole('button', { name: 'Open' }).click();
  await untilShown(page, 'recording', String(id));
  await page.getByTestId('rehearsal-badge').waitFor();
  expect(complaints).toEqual([]);
  await page.context().close();
});
