/** The language of the page: the system's, or the chosen one; kept, shown at once, and handed to the report. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { english } from '../../web/words/english.ts';
import { spanish } from '../../web/words/spanish.ts';
import { expectAccessible } from '../support/accessible.ts';
import { openBrowser, openDashboard, picture, untilShown } from '../support/dashboard.ts';
import { visitEachScreen } from '../support/every-screen.ts';
import { rehearse } from '../support/rehearsing.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

const IN_SPANISH = { context: { locale: 'es-MX' } } as const;

let bridge: RunningBridge;
let browser: Browser;

beforeAll(async () => {
  [bridge, browser] = await Promise.all([runBridge(), openBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
});

test.each([
  ['en-US', 'en', english],
  ['es-MX', 'es', spanish],
  ['fi-FI', 'en', english],
] as const)('a system that speaks %s gets %s', async (locale, lang, wording) => {
  const { page, complaints } = await openDashboard(browser, bridge.url, { context: { locale } });
  await page.getByText(wording.firstMinute.learn).waitFor();
  await expect.poll(() => page.evaluate(() => document.documentElement.lang)).toBe(lang);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('a chosen language is spoken at once, also where the chart is drawn, and after a reload', async () => {
  const { page, complaints } = await rehearse(browser, bridge.url, 'quarry-road-bakery');
  const workNow = () => page.getByTestId('work-pull_down').innerText();
  await untilShown(page, 'stage', 'pull_down');
  // Or it would be at depth before all of this has been looked at.
  await page.getByTestId('pause').click();
  await untilShown(page, 'freshness', 'paused');
  // How long in a rehearsal, whose clock is not the wall's: a moment would be read as a time of day.
  await expect.poll(workNow).toMatch(/^Pull-down\s+for \d+ (s|min)/u);
  await page.getByTestId('menu').click();
  await page.getByTestId('open-settings').click();
  await page.getByRole('radio', { name: 'Español', exact: true }).check();
  await page.getByText(spanish.settings.language, { exact: true }).waitFor();
  await expect.poll(() => page.evaluate(() => document.documentElement.lang)).toBe('es');
  await page.getByTestId('close-panel').click();
  await expect
    .poll(() => page.getByTestId('stage').innerText())
    .toContain(spanish.stages.names.pull_down);
  await expect.poll(workNow).toMatch(/^Evacuación\s+desde hace \d+ (s|min)/u);
  await expect
    .poll(() => page.getByTestId('chart').getAttribute('aria-label'))
    .toMatch(/^Presión en el tiempo/u);
  await page.reload();
  await page.getByText(spanish.header.menu, { exact: true }).waitFor();
  await page.getByTestId('menu').click();
  await page.getByTestId('open-settings').click();
  await page.getByRole('radio', { name: 'English', exact: true }).check();
  await page.getByText(english.settings.language, { exact: true }).waitFor();
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('choices that were stored before there was a language are kept', async () => {
  const script = `localStorage.setItem('ebbline.choices', '{"pressure":"mbar","temperature":"°F","look":"sun"}')`;
  const { page } = await openDashboard(browser, bridge.url, { ...IN_SPANISH, script });
  await page.getByText(spanish.header.menu, { exact: true }).waitFor();
  await expect
    .poll(() => page.evaluate(() => document.documentElement.dataset['look']))
    .toBe('sun');
  await page.getByTestId('menu').click();
  await page.getByTestId('open-settings').click();
  await expect.poll(() => page.getByRole('radio', { name: 'mbar' }).isChecked()).toBe(true);
  await expect
    .poll(() => page.getByRole('radio', { name: 'como el sistema' }).first().isChecked())
    .toBe(true);
  await page.context().close();
});

test('the report opens in the language of the page, with decimal commas', async () => {
  const { page } = await openDashboard(browser, bridge.url, IN_SPANISH);
  await page.getByTestId('menu').click();
  await page.getByTestId('open-recordings').click();
  const address = await page
    .getByTestId('recordings-panel')
    .getByRole('link', { name: spanish.recordings.report, exact: true })
    .first()
    .getAttribute('href');
  expect(address).toContain('language=es');
  await page.goto(new URL(address ?? '', bridge.url).href);
  await expect.poll(() => page.evaluate(() => document.documentElement.lang)).toBe('es');
  await page.getByText(spanish.report.rehearsalTitle).waitFor();
  await picture(page, 'report-es');
  // Decoration (WCAG 2.2, 1.4.3, incidental): that it is a rehearsal stands in words as well.
  await page.locator('.stamp').evaluate((stamp) => stamp.remove());
  await expectAccessible(page);
  await page.context().close();
});

test('every screen in Spanish keeps within its edges', async () => {
  await visitEachScreen(
    browser,
    bridge.url,
    async (page, screen) => {
      await picture(page, `${screen}-es`);
      for (const size of [
        { width: 390, height: 844 },
        { width: 1280, height: 800 },
      ]) {
        await page.setViewportSize(size);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        expect(wide, screen).toBeLessThanOrEqual(size.width);
        if (size.width < 500) await picture(page, `${screen}-phone-es`);
      }
    },
    IN_SPANISH,
  );
}, 300_000);

test('a language that can’t be had is no silence: the page says so, and offers what it has', async () => {
  const { page } = await openDashboard(browser, bridge.url, {
    context: { locale: 'en-US', serviceWorkers: 'block' },
    // As of a bridge that was renewed while the page was open: its file has another name by now.
    prepare: async (opening) => {
      await opening.route(/\/assets\/spanish-/u, (route) => route.fulfill({ status: 404 }));
    },
  });
  await page.getByTestId('menu').click();
  await page.getByTestId('open-settings').click();
  await page.getByRole('radio', { name: 'Español', exact: true }).check();
  const notice = page.getByTestId('notice');
  await expect
    .poll(() => notice.innerText())
    .toContain(english.connection.languageMissing({ language: 'Español' }));
  await page.getByRole('radio', { name: 'English', exact: true }).check();
  await expect.poll(() => notice.count()).toBe(0);
  await page.context().close();
});

test('a language that is never answered for does not leave the page empty', async () => {
  let answer: () => void = () => undefined;
  const { page } = await openDashboard(browser, bridge.url, {
    context: { locale: 'es-MX', serviceWorkers: 'block' },
    prepare: async (opening) => {
      await opening.route(/\/assets\/spanish-/u, async (route) => {
        await new Promise<void>((resolve) => (answer = resolve));
        await route.continue();
      });
    },
  });
  const notice = page.getByTestId('notice');
  await notice.waitFor();
  await page.getByText(english.header.menu, { exact: true }).waitFor();
  answer();
  await page.getByText(spanish.header.menu, { exact: true }).waitFor();
  await expect.poll(() => notice.count()).toBe(0);
  await page.context().close();
});
