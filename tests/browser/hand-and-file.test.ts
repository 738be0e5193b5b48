/** Readings that no sensor sent, on the page: a file is read in, and numbers are typed in. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { expectAccessible } from '../support/accessible.ts';
import {
  drawnPressures,
  openBrowser,
  openDashboard,
  pageReadings,
  picture,
  shown,
  untilOtherRecording,
  untilReadings,
  untilShown,
} from '../support/dashboard.ts';
import { english } from '../../web/words/english.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

const HEADER = 'elapsed_s,pressure_pa,event\n';
let bridge: RunningBridge;
let browser: Browser;
let folder = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'files-'));
  [bridge, browser] = await Promise.all([runBridge(), openBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
  rmSync(folder, { recursive: true });
});

async function chooseFile(
  page: Page,
  name: string,
  rows: readonly string[],
  header = HEADER,
): Promise<void> {
  const path = join(folder, name);
  writeFileSync(path, `${header}${rows.join('\n')}\n`);
  await page.getByTestId('recordings-panel').getByTestId('file-to-read-in').setInputFiles(path);
}

test('a file says what is wrong with it, and put right becomes a recording named as imported', async () => {
  const { page } = await openDashboard(browser, bridge.url);
  await page.getByTestId('menu').click();
  await page.getByTestId('open-recordings').click();
  const rows = Array.from({ length: 900 }, (_, s) => {
    const pressurePa = s < 400 ? 30 + 90_000 * Math.exp(-s / 40) : 30 + 0.05 * (s - 400);
    return `${s},${pressurePa},${s === 400 ? 'isolated' : ''}`;
  });
  await chooseFile(page, 'cellar.csv', [...rows, '900,many,']);
  const wrong = page.getByTestId('read-in-wrong');
  await wrong.waitFor();
  await expect.poll(() => wrong.innerText()).toMatch(/line 902/u);
  await expect.poll(() => page.getByTestId('read-in').isDisabled()).toBe(true);
  await page.getByRole('button', { name: 'Another file' }).click();
  await chooseFile(page, 'cellar.csv', rows);
  await page.getByText(/^900 readings over 14 min/u).waitFor();
  await page.getByTestId('read-in').click();
  await untilReadings(page, rows.length);
  await untilShown(page, 'verdict', 'leak');
  await expect.poll(() => shown(page, 'freshness')).toBe('ended');
  await expect
    .poll(() => page.getByTestId('connection-state').innerText())
    .toMatch(/cellar\.csv, imported/u);
  await page.getByTestId('menu').click();
  await page.getByTestId('open-recordings').click();
  await page.getByText('Imported: cellar.csv').waitFor();
  await picture(page, 'imported');
  // The browser here is one for en-US.
  const kept = page.waitForEvent('download');
  const list = page.getByTestId('recordings-panel');
  const link = list.getByRole('link', { name: english.recordings.reportAsPdf });
  await expect
    .poll(() => link.getAttribute('href'))
    .toMatch(/report\.pdf\?.*language=en.*paper=Letter/u);
  await link.click();
  const file = await kept;
  expect(file.suggestedFilename()).toMatch(/^\d{4}-\d\d-\d\d-cellar-csv-report-\d+\.pdf$/u);
  expect(
    readFileSync(await file.path())
      .subarray(0, 5)
      .toString(),
  ).toBe('%PDF-');
  await page.context().close();
});

test('a logger’s file is shown as it is read, changed by choice, and only then kept', async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await page.getByTestId('menu').click();
  await page.getByTestId('open-recordings').click();
  const rows = Array.from({ length: 1284 }, (_, at) => {
    const clock = new Date(Date.UTC(2026, 4, 3, 23, 30) + at * 2500).toISOString().slice(11, 19);
    const micron = 250 + 600_000 * Math.exp(-at / 90);
    return `${clock};${micron.toFixed(1).replace('.', ',')};21,5`;
  });
  rows[15] = '23:30:37;gone;21,5';
  await chooseFile(page, 'logger.txt', rows, 'Time;Gauge 1;Temperature\n');
  const found = page.getByTestId('found');
  await page.getByTestId('first-rows').waitFor();
  // Nothing in the file says what the gauge shows: it is asked, not guessed.
  await expect.poll(() => found.innerText()).toMatch(/the file does not say/u);
  await expect.poll(() => page.getByTestId('read-in').isDisabled()).toBe(true);
  await page.getByLabel('Pressure in').selectOption({ label: 'micron' });
  await expect
    .poll(() => found.innerText())
    .toMatch(/^1283 readings over 53 min 27 s, 250 micron lowest; 1 row could not be read\.$/u);
  await expect
    .poll(() => page.getByTestId('read-in-wrong').innerText())
    .toMatch(/^line 17: “gone”/u);
  await picture(page, 'preview');
  await expectAccessible(page);
  await page.setViewportSize({ width: 390, height: 844 });
  await picture(page, 'preview-phone');
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.getByLabel('Leave out').check();
  await page.getByTestId('read-in').click();
  await untilReadings(page, 1283);
  const [first] = await pageReadings(page);
  expect(first).toMatchObject({ elapsedS: 0, temperatureC: 21.5 });
  await expect
    .poll(() => page.getByTestId('connection-state').innerText())
    .toMatch(/logger\.txt, imported/u);
  const id = await shown(page, 'recording');
  const detail = await (await fetch(new URL(`api/recordings/${id}`, bridge.url))).text();
  expect(detail).toMatch(/“Gauge 1” \(micron\)[^]*1 row could not be read[^]*line 17/u);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('typed numbers are readings, dated and never live, until the recording is ended', async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  const enter = async (pressure: string): Promise<void> => {
    await page.keyboard.type(pressure);
    await page.keyboard.press('Enter');
  };
  await page.getByTestId('menu').click();
  await page.getByTestId('open-type-in').click();
  const panel = page.getByTestId('type-in-panel');
  await panel.locator('input[name=pressure]:focus').waitFor();
  await enter('deep');
  await panel.getByRole('alert').waitFor();
  await page.keyboard.press('Control+A');
  await untilShown(page, 'connection', 'live');
  const earlier = await shown(page, 'recording');
  // As fast as the keys go, without a mouse: each is kept, in order.
  await enter('90000');
  await enter('45000');
  await enter('450');
  await untilOtherRecording(page, earlier);
  await untilReadings(page, 3);
  // One too few: it is put right, and the slip stays to be seen.
  await page.getByTestId('typed-3').getByRole('button').click();
  await enter('4500');
  await expect
    .poll(() => page.getByTestId('last-typed').innerText())
    .toMatch(/4500 micron[^]*450 micron[^]*put right to 4500 micron[^]*90\u00a0000 micron/u);
  await page.getByTestId('gauge').locator('summary').click();
  await panel.getByLabel('Name').fill('shop gauge');
  await panel.getByLabel(/steps of/u).fill('25');
  await panel.getByRole('button', { name: 'Save' }).click();
  await panel.getByText('Your gauge: shop gauge, steps of 25 micron').waitFor();
  await picture(page, 'typing-in');
  await expectAccessible(page);
  await page.setViewportSize({ width: 390, height: 844 });
  await picture(page, 'typing-in-phone');
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.getByTestId('close-panel').click();
  expect((await pageReadings(page)).at(-1)?.pressurePa).toBeCloseTo(599.951, 3);
  await expect.poll(() => drawnPressures(page)).not.toContain(null);
  await expect.poll(() => shown(page, 'freshness')).toBe('typed_in');
  const reading = page.getByTestId('reading');
  await expect.poll(() => reading.innerText()).toMatch(/4500[^]*typed in at \d\d:\d\d/u);
  await expect
    .poll(() => page.getByTestId('connection-state').innerText())
    .toMatch(/^shop gauge, typed in/u);
  await picture(page, 'typed-in');

  await page.getByTestId('type-next').click();
  await page.getByTestId('end-typed-in').click();
  await untilShown(page, 'freshness', 'ended');
  expect(complaints).toEqual([]);
  await page.context().close();
});
