/**
 * Every screen in a made-up language: whatever letters stand outside of its brackets were never given to
 * a translator.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { rehearsalListSchema } from '../../protocol/api.ts';
import { PASS_RULES } from '../../protocol/pass-rules.ts';
import {
  type Opening,
  openBrowser,
  openDashboard,
  picture,
  untilShown,
} from '../support/dashboard.ts';
import { visitEachScreen } from '../support/every-screen.ts';
import { radioWith } from '../support/radio-with.ts';
import { rehearse } from '../support/rehearsing.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';
import { everythingSaid, inBrackets } from '../support/speaking-in-brackets.ts';
import { unspoken } from '../support/unspoken.ts';

/** A note that the bridge itself keeps, where a busy machine lets a rehearsal wait; as cut for a flag. */
const PAUSED = 'The computer stood still: the r';
/** A heading of a file in a note of it, cut for a flag. */
const CUT_HEADING = 'elaps';

let bridge: RunningBridge;
let browser: Browser;
let brackets: Opening;
let folder = '';
/** What rehearsals are called and tell comes from the bridge, standards have their own names. */
let data: string[] = [];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'files-'));
  [bridge, browser, brackets] = await Promise.all([runBridge(), openBrowser(), inBrackets()]);
  const cards = await (await fetch(new URL('api/rehearsals', bridge.url))).json();
  const { rehearsals } = rehearsalListSchema.parse(cards);
  const told = rehearsals.flatMap(({ name, place, situation }) => [
    situation,
    place,
    name.replaceAll('-', ' '),
  ]);
  const standards = Object.values(PASS_RULES).flatMap(({ source }) =>
    source === null ? [] : [source.document, source.clause ?? ''],
  );
  data = [...told, ...standards, PAUSED, 'Ines', 'Harbour Street', 'cellar.csv', 'many']
    .filter((text) => text !== '')
    // The longest first, or parts of it would be left standing.
    .sort((a, b) => b.length - a.length);
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
  rmSync(folder, { recursive: true });
});

async function expectSpoken(page: Page, screen: string, more: readonly string[] = []) {
  await page.evaluate(() => {
    for (const hidden of document.querySelectorAll('details')) hidden.open = true;
    // What is in them is made when they open.
    return new Promise((done) => requestAnimationFrame(() => setTimeout(done, 50)));
  });
  const said = await everythingSaid(page);
  // The chart's menu lies over what is pressed next.
  await page.evaluate(() => {
    for (const menu of document.querySelectorAll('.chart-menu')) menu.removeAttribute('open');
  });
  // The page speaks it at all: else nothing would be checked.
  expect(said.filter((text) => text.includes('⟦')).length, screen).toBeGreaterThan(5);
  const left = said.flatMap((text) => unspoken(text, [...more, ...data]));
  expect([...new Set(left)], screen).toEqual([]);
}

test('letting another screen in, on the laptop and there', { timeout: 120_000 }, async () => {
  const shared = await runBridge({ shareAddresses: ['127.0.0.5'] });
  const { page: laptop } = await openDashboard(browser, shared.url, brackets);
  await laptop.getByTestId('menu').click();
  await laptop.getByTestId('open-second-screen').click();
  await laptop.getByTestId('show-code').click();
  const [typed, print] = await Promise.all(
    ['typed-code', 'fingerprint'].map((testId) => laptop.getByTestId(testId).innerText()),
  );
  const ofCode = [...(typed ?? '').split(' '), ...(print ?? '').split('\n')];
  await expectSpoken(laptop, 'sharing', ofCode);
  const { page: other } = await openDashboard(browser, shared.sharedAt().addresses[0] ?? '', {
    ...brackets,
    context: { ...brackets.context, ignoreHTTPSErrors: true },
  });
  await other.getByTestId('pair-screen').waitFor();
  await expectSpoken(other, 'pair-screen');
  await other.locator('input[name=code]').fill(typed ?? '');
  await other.locator('input[name=name]').fill('Ines');
  await other.getByTestId('pair').click();
  await other.getByTestId('menu').click();
  await other.getByTestId('open-second-screen').click();
  await other.getByTestId('paired-as').waitFor();
  await expectSpoken(other, 'paired-screen');
  await laptop.getByTestId('just-paired').waitFor();
  await expectSpoken(laptop, 'sharing-paired', ofCode);
  await other.getByTestId('close-panel').click();
  await other.getByTestId('menu').click();
  await other.getByTestId('open-sensors').click();
  await other.getByTestId('looks-only').waitFor();
  await expectSpoken(other, 'looks-only');
  await shared.remove();
});

test('of a rehearsal, to its reveal', { timeout: 300_000 }, async () => {
  await visitEachScreen(
    browser,
    bridge.url,
    async (page, screen) => {
      if (screen === 'rehearse') await page.getByTestId('rehearsal-drawn').waitFor();
      const revealed = screen === 'reveal';
      const told = revealed
        ? [await page.getByTestId('truth').innerText(), await page.getByTestId('tells').innerText()]
        : [];
      await expectSpoken(page, screen, told);
      if (screen === 'live') await picture(page, 'brackets-live');
    },
    brackets,
  );
});

test('a verdict with its numbers, a call, what changes nothing, and results', async () => {
  const { page } = await rehearse(browser, bridge.url, 'weir-street-archive', brackets);
  await page.getByTestId('alert').waitFor({ timeout: 120_000 });
  await expectSpoken(page, 'alert');
  await untilShown(page, 'verdict', 'leak_and_moisture');
  await page.getByTestId('pause').click();
  await untilShown(page, 'freshness', 'paused');
  await expectSpoken(page, 'verdict');
  await picture(page, 'brackets-verdict');
  await page.getByTestId('chart').focus();
  for (const key of ['ArrowLeft', '0', 'ArrowLeft']) await page.keyboard.press(key);
  await page.getByTestId('cursor-box').waitFor();
  await expectSpoken(page, 'cursor');
  for (const screen of ['alerts', 'alert-reach']) {
    await page.getByTestId('menu').click();
    await page.getByTestId(`open-${screen}`).click();
    await page.getByTestId('close-panel').waitFor();
    if (screen === 'alert-reach') {
      await page.getByTestId('check-sound').click();
      await page.getByTestId('sound-not-heard').click();
    }
    await expectSpoken(page, screen);
    await page.getByTestId('close-panel').click();
  }
  await page.getByTestId('more-marks').click();
  await page.getByTestId('mark-sections_opened').click();
  await page.getByTestId('notice').waitFor();
  await expectSpoken(page, 'notice');
  await page.getByTestId('call').click();
  await page.getByTestId('pick-cause').getByRole('radio').first().check();
  await page.locator('input[name="trainee"]').fill('Ines');
  await page.getByTestId('make-call').click();
  await page.getByTestId('go-on-first').waitFor();
  await expectSpoken(page, 'called');
  await page.getByTestId('reveal-now').click();
  const told = [
    await page.getByTestId('truth').innerText(),
    await page.getByTestId('tells').innerText(),
  ];
  await expectSpoken(page, 'reveal of a call', told);
  await page.getByTestId('reveal-panel').getByTestId('open-results').click();
  await page.getByTestId('score').waitFor();
  await expectSpoken(page, 'results with one', told);
  await page.context().close();
}, 240_000);

test('a sheet and a rig that were filled in, wrongly at first', { timeout: 120_000 }, async () => {
  const { page } = await rehearse(browser, bridge.url, 'quarry-road-bakery', brackets);
  await page.getByTestId('rehearsal-badge').waitFor();
  const wrong = () => page.getByRole('dialog').getByRole('alert');
  await page.getByTestId('job').click();
  await page.locator('input[name=site]').fill('Harbour Street');
  await page.locator('input[name=targetPa]').fill('deep');
  await page.keyboard.press('Enter');
  await wrong().waitFor();
  await page.locator('select[name=passRule]').selectOption('au-nz-triple');
  await expectSpoken(page, 'wrong sheet');
  await page.keyboard.press('Enter');
  await page.getByTestId('menu').click();
  await page.getByTestId('open-rig').click();
  await page.getByTestId('rig-missing').waitFor();
  const entries = {
    volumeM3: '42',
    pumpDisplacementM3PerS: '113',
    hoseBoreM: '6',
    hoseLengthM: '1',
  };
  for (const [field, text] of Object.entries(entries)) {
    await page.locator(`input[name=${field}]`).fill(text);
  }
  await page.keyboard.press('Enter');
  await page.getByTestId('rig-result').waitFor();
  await expectSpoken(page, 'rig');
  await page.context().close();
});

test(
  'what nobody hears: typed numbers and a file, each with a slip',
  { timeout: 120_000 },
  async () => {
    const { page } = await openDashboard(browser, bridge.url, brackets);
    await untilShown(page, 'connection', 'live');
    await page.getByTestId('menu').click();
    await page.getByTestId('open-type-in').click();
    const enter = async (pressure: string) => {
      await page.keyboard.type(pressure);
      await page.keyboard.press('Enter');
    };
    await page.locator('input[name=pressure]:focus').waitFor();
    await enter('deep');
    await page.getByTestId('type-in-panel').getByRole('alert').waitFor();
    await expectSpoken(page, 'wrong number');
    await page.keyboard.press('Control+A');
    await enter('90000');
    await enter('45000');
    await page.getByTestId('typed-2').getByRole('button').click();
    await enter('40000');
    await page.getByTestId('typed-2').locator('s').waitFor();
    await expectSpoken(page, 'typed numbers');
    await page.getByTestId('close-panel').click();
    await expectSpoken(page, 'live, typed in');
    await page.getByTestId('menu').click();
    await page.getByTestId('open-sensors').click();
    await expectSpoken(page, 'sensors, typed in');
    await page.getByTestId('close-panel').click();

    await page.getByTestId('menu').click();
    await page.getByTestId('open-recordings').click();
    const path = join(folder, 'cellar.csv');
    const rows = Array.from({ length: 900 }, (_, s) => `${s},${30 + 900 * Math.exp(-s / 40)},`);
    writeFileSync(path, `elapsed_s,pressure_pa,event\n${rows.join('\n')}\n900,many,\n`);
    await page.getByTestId('file-to-read-in').setInputFiles(path);
    await page.getByTestId('read-in-wrong').waitFor();
    await expectSpoken(page, 'file', ['elapsed_s', 'pressure_pa', 'event']);
    await page.getByTestId('read-in-panel').getByRole('checkbox').check();
    await page.getByTestId('read-in').click();
    await untilShown(page, 'freshness', 'ended');
    await expectSpoken(page, 'live, read in', ['elapsed_s', 'pressure_pa', CUT_HEADING]);
    await page.getByTestId('menu').click();
    await page.getByTestId('open-recordings').click();
    await expectSpoken(page, 'recordings', ['elapsed_s', 'pressure_pa', CUT_HEADING]);
    await page.context().close();
  },
);

test(
  'the first minute, with and without Bluetooth, and without a bridge',
  { timeout: 120_000 },
  async () => {
    for (const problem of [null, 'no_permission'] as const) {
      const other = await runBridge({ sensors: radioWith(problem), platform: 'linux' });
      const { page } = await openDashboard(browser, other.url, brackets);
      await page.getByTestId('rehearse-first').waitFor();
      await expectSpoken(page, `first minute, ${problem ?? 'no problem'}`);
      await other.remove();
      await untilShown(page, 'connection', 'lost');
      await expectSpoken(page, 'no bridge');
      await page.context().close();
    }
  },
);
