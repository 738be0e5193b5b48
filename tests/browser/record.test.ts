/** The page says that readings are not being kept, on whatever screen, and that a damaged record was mended. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { PROBLEMS } from '../../protocol/problems.ts';
import { RECORD_FILE } from '../../server/record/open-database.ts';
import { expectAccessible } from '../support/accessible.ts';
import { openBrowser, openDashboard, picture, untilShown } from '../support/dashboard.ts';
import { runBridge } from '../support/running-bridge.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

test('what is not being kept, and what became of a damaged record', async () => {
  const dataFolder = mkdtempSync(join(tmpdir(), 'record-page-'));
  writeFileSync(join(dataFolder, RECORD_FILE), 'no database '.repeat(1000));
  const bridge = await runBridge({ dataFolder });
  const { page, complaints } = await openDashboard(browser, bridge.url);
  const strip = page.getByTestId('record-state');
  await strip.waitFor();
  await expect.poll(() => strip.innerText()).toContain(PROBLEMS.record_salvaged.meaning);
  await expect.poll(() => strip.innerText()).toContain(join(dataFolder, 'record.damaged-'));
  await strip.getByRole('button').click();
  await strip.waitFor({ state: 'detached' });

  await page.getByTestId('rehearse-first').click();
  await untilShown(page, 'stage', 'pull_down');
  const other = new Database(join(dataFolder, RECORD_FILE));
  other.exec('BEGIN IMMEDIATE');
  await strip.waitFor();
  await expect.poll(() => strip.innerText()).toContain(PROBLEMS.write_failed.meaning);
  await expect.poll(() => strip.innerText()).toMatch(/in memory, and are not on the curve: [1-9]/u);
  // What is shown is old, and nothing follows from it.
  await page.locator('html[data-freshness="stale"]').waitFor();
  await expect
    .poll(() => page.getByTestId('connection-state').innerText())
    .toMatch(/not in the record since/u);
  await expect.poll(() => page.getByTestId('trend').innerText()).toMatch(/^the last reading/u);
  await expect.poll(() => page.getByTestId('next').count()).toBe(0);
  await picture(page, 'record-held');
  await expectAccessible(page);
  other.close();
  await strip.waitFor({ state: 'detached' });
  await page.locator('html[data-freshness="live"]').waitFor();
  await page.getByTestId('next').waitFor();
  expect(complaints).toEqual([]);
  await page.context().close();
  await bridge.remove();
});
