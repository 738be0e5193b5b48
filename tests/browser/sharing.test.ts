/** A phone is let in by the laptop's code, assists, and is shut out; and no screen asks any other host for anything. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { english } from '../../web/words/english.ts';
import { expectAccessible } from '../support/accessible.ts';
import { openBrowser, openDashboard, picture, untilShown } from '../support/dashboard.ts';
import { rehearse } from '../support/rehearsing.ts';
import { runBridge, type RunningBridge } from '../support/running-bridge.ts';

const PHONE = { width: 390, height: 844 };
const ON_PHONE = { viewport: PHONE, ignoreHTTPSErrors: true } as const;
/** What a browser says of a certificate that no authority vouches for, and of a screen that is not let in. */
const EXPECTED = /SSL certificate error|401 \(Unauthorized\)|unknown error occurred when fetching/u;

let bridge: RunningBridge;
let browser: Browser;
let laptop: Page;

beforeAll(async () => {
  [bridge, browser] = await Promise.all([
    runBridge({ shareAddresses: ['127.0.0.4'] }),
    openBrowser(),
  ]);
  const opened = await rehearse(browser, bridge.url, 'quarry-road-bakery');
  laptop = opened.page;
  await untilShown(laptop, 'stage', 'pull_down');
  await laptop.getByTestId('pause').click();
  await untilShown(laptop, 'freshness', 'paused');
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
});

const { roles } = english.secondScreen.sharing;

async function openSecondScreen(page: Page): Promise<void> {
  await page.getByTestId('menu').click();
  await page.getByTestId('open-second-screen').click();
}

/** @returns the code for typing, as it is shown */
async function showCode(role: 'watch' | 'assist'): Promise<string> {
  await openSecondScreen(laptop);
  await laptop.getByRole('radio', { name: roles[role], exact: true }).check();
  await laptop.getByTestId('show-code').click();
  return laptop.getByTestId('typed-code').innerText();
}

const sharedAt = (): string => bridge.sharedAt().addresses[0] ?? '';

test('a phone is let in to assist, sets a mark, and is shut out', { timeout: 90_000 }, async () => {
  const code = await showCode('assist');
  await picture(laptop, 'sharing-code');
  await expectAccessible(laptop);
  const { page: phone, complaints } = await openDashboard(browser, sharedAt(), {
    context: ON_PHONE,
  });
  await phone.getByTestId('pair-screen').waitFor();
  await picture(phone, 'sharing-pair');
  await expectAccessible(phone);
  // Nothing of the job is there before.
  await expect.poll(() => phone.getByTestId('number').count()).toBe(0);

  await phone.getByLabel(english.secondScreen.pairing.code).fill('2222 2222');
  await phone.getByTestId('pair').click();
  await expect
    .poll(() => phone.getByTestId('notice').innerText())
    .toContain(english.problems.wrong_code.meaning);
  await phone.getByLabel(english.secondScreen.pairing.code).fill(code.toLowerCase());
  await phone.getByLabel(english.secondScreen.pairing.name).fill('Ladder');
  await phone.getByTestId('pair').click();
  await phone.getByTestId('number').waitFor();
  await laptop.getByTestId('just-paired').waitFor();
  await laptop.getByText(english.secondScreen.sharing.here).waitFor();
  await picture(laptop, 'sharing-paired');
  await laptop.getByTestId('close-panel').click();

  await phone.getByTestId('mark-note').click();
  await phone.getByRole('textbox').fill('seen from the ladder');
  await phone.getByRole('textbox').press('Enter');
  const marked = async () => (await fetch(new URL('api/recordings/1', bridge.url))).text();
  await expect.poll(marked).toContain('seen from the ladder');
  // What it may not do is not there.
  for (const testId of ['stop', 'pause', 'call']) {
    await expect.poll(() => phone.getByTestId(testId).count()).toBe(0);
  }
  await phone.getByTestId('menu').click();
  for (const [screen, offered] of [
    ['rehearse', 0],
    ['sign', 0],
    ['type-in', 1],
    ['sheet', 1],
  ] as const) {
    await expect.poll(() => phone.getByTestId(`open-${screen}`).count()).toBe(offered);
  }
  await phone.getByTestId('open-second-screen').click();
  await expect.poll(() => phone.getByTestId('paired-as').innerText()).toContain('Ladder');
  await picture(phone, 'sharing-phone');

  await openSecondScreen(laptop);
  await laptop.getByTestId('unpair-1').click();
  await phone.getByTestId('pair-screen').waitFor();
  await expect.poll(() => phone.getByTestId('number').count()).toBe(0);
  // Nor does anything of it stay behind in the phone.
  const kept = await phone.evaluate(() => Object.keys(localStorage).join(' '));
  expect(['', 'ebbline.choices']).toContain(kept);
  await laptop.getByText(english.secondScreen.sharing.none, { exact: true }).waitFor();
  await laptop.getByTestId('close-panel').click();
  const others = complaints.filter((one) => !one.startsWith(sharedAt()));
  // The code that was mistyped.
  const refused = 'Failed to load resource: the server responded with a status of 403 (Forbidden)';
  expect(others.filter((one) => !EXPECTED.test(one))).toEqual([refused]);
  await phone.context().close();
});

test(
  'who scans the code only gives a name; who watches is offered nothing to change',
  { timeout: 90_000 },
  async () => {
    await showCode('watch');
    const secret = await laptop.evaluate(async () => {
      const answer = await fetch('api/sharing/codes', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: '{"role":"watch"}',
      });
      const offered: unknown = await answer.json();
      return typeof offered === 'object' && offered !== null && 'secret' in offered
        ? String(offered.secret)
        : '';
    });
    await laptop.getByTestId('close-panel').click();
    const { page: phone } = await openDashboard(browser, `${sharedAt()}#pair=${secret}`, {
      context: ON_PHONE,
    });
    await phone.getByTestId('pair-screen').waitFor();
    // It stays in no history, no bookmark and no picture of the address.
    expect(phone.url()).toBe(sharedAt());
    await expect
      .poll(() => phone.getByLabel(english.secondScreen.pairing.code, { exact: true }).count())
      .toBe(0);
    await phone.getByTestId('pair').click();
    await phone.getByTestId('number').waitFor();
    await expect.poll(() => phone.locator('[data-testid^=mark-]').count()).toBe(0);
    await expect.poll(() => phone.getByTestId('more-marks').count()).toBe(0);
    await phone.getByTestId('job').click();
    await phone.getByTestId('looks-only').waitFor();
    const fields = phone.getByTestId('sheet-panel').locator('input, textarea, select');
    await expect.poll(() => fields.count()).toBeGreaterThan(5);
    await expect.poll(() => fields.first().isDisabled()).toBe(true);
    await picture(phone, 'sharing-watch');
    const closes = phone.getByTestId('close-panel');
    await expect.poll(() => closes.isEnabled()).toBe(true);
    await phone.context().close();
  },
);

/** Each is opened from the menu, and closed again. */
const SCREENS = [
  'rehearse',
  'type-in',
  'recordings',
  'prepared',
  'sheet',
  'steps',
  'sign',
  'rig',
  'volume',
  'pump-check',
  'nitrogen',
  'cycles',
  'hunt',
  'sensors',
  'second-screen',
  'alerts',
  'alert-reach',
  'settings',
] as const;

test(
  'no screen asks another host for anything, nor does the policy have to keep it from that',
  { timeout: 90_000 },
  async () => {
    const { page, complaints } = await openDashboard(browser, bridge.url);
    const hosts = new Set<string>();
    page.context().on('request', (asked) => hosts.add(new URL(asked.url()).host));
    await page.getByTestId('number').waitFor();
    await page.reload();
    await page.getByTestId('number').waitFor();
    for (const screen of SCREENS) {
      await page.getByTestId('menu').click();
      await page.getByTestId(`open-${screen}`).click();
      await page.getByTestId('close-panel').click();
    }
    await page.goto(new URL('api/recordings/1/report', bridge.url).href);
    await page.locator('svg').first().waitFor();
    expect([...hosts]).toEqual([new URL(bridge.url).host]);
    expect(complaints).toEqual([]);
    await page.context().close();
  },
);
