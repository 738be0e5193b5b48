/** From two metres, which a quarter of the size stands for: what has to be read is large, and all there. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { english, type Wording } from '../../web/words/english.ts';
import { spanish } from '../../web/words/spanish.ts';
import { openBrowser, openDashboard, picture, untilShown } from '../support/dashboard.ts';
import { rehearse } from '../support/rehearsing.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

/** A quarter of it is nine pixels: the least that can be read. By looking at pictures so made. */
const AFAR_PX = 34;
const FROM_AFAR = ['stage', 'number', 'unit', 'trend', 'headline', 'sure', 'todo'];

/** Has to be found, or nothing would be. */
const TOO_LONG = 'Keep pumping, and warm what is cold. '.repeat(8);
const WORDINGS = { en: english, es: spanish } as const;

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
  ['en', 'en-GB'],
  ['es', 'es-ES'],
] as const)(
  'all that counts is legible from two metres, an alert and a rehearsal’s bar too: %s',
  async (language, locale) => {
    const opening = { context: { locale } };
    const { page } = await rehearse(browser, bridge.url, 'weir-street-archive', opening, '×60');
    await expect.poll(() => page.evaluate(() => document.documentElement.lang)).toBe(language);
    await untilShown(page, 'outcome', 'reaches');
    await lookFromAfar(page, `glance-pull-down-${language}`);
    await page.getByTestId('alert').waitFor({ timeout: 120_000 });
    await lookFromAfar(page, `glance-alert-${language}`);
    // Half a row beside the rehearsal's bar: as large as that allows.
    expect((await placeOf(page, 'alert-title')).size).toBeGreaterThanOrEqual(28);
    await untilShown(page, 'verdict', 'leak_and_moisture');
    await lookFromAfar(page, `glance-verdict-${language}`);
    await page.getByTestId('pause').click();
    await untilShown(page, 'freshness', 'paused');
    await expect.poll(() => stepsThatOverflow(page, WORDINGS[language])).toEqual([TOO_LONG]);
    await page.context().close();
  },
  240_000,
);

test('at depth, with its alert, what is to be done and its button are there as well', async () => {
  const { page } = await openDashboard(browser, bridge.url);
  await page.getByTestId('menu').click();
  await page.getByTestId('open-rehearse').click();
  await page.getByRole('radio', { name: 'My own hands' }).check();
  await page.getByRole('radio', { name: '×120', exact: true }).check();
  await page.getByTestId('rehearsal-quarry-road-bakery').locator('summary').click();
  await page.getByTestId('start-quarry-road-bakery').click();
  await page.getByTestId('mark-pump_on').click();
  await untilShown(page, 'stage', 'pull_down');
  await page.getByTestId('mark-ballast_closed').click();
  await page.getByTestId('prompt-isolated').waitFor({ timeout: 120_000 });
  await page.getByTestId('alert').waitFor();
  await lookFromAfar(page, 'glance-depth');
  const { bottom } = await placeOf(page, 'prompt-isolated');
  const bar = await page.locator('footer.work').boundingBox();
  expect(bottom).toBeLessThanOrEqual(bar?.y ?? 0);
  await page.context().close();
}, 240_000);

/** Pauses for it: what is measured must not change its words meanwhile. */
async function lookFromAfar(page: Page, name: string): Promise<void> {
  await page.getByTestId('pause').click();
  await untilShown(page, 'freshness', 'paused');
  await picture(page, name);
  for (const shown of FROM_AFAR) {
    const { size, bottom, right } = await placeOf(page, shown);
    expect(size, shown).toBeGreaterThanOrEqual(AFAR_PX);
    expect(bottom, shown).toBeLessThanOrEqual(800);
    expect(right, shown).toBeLessThanOrEqual(1280);
  }
  expect((await placeOf(page, 'connection-state')).size).toBeGreaterThanOrEqual(AFAR_PX);
  // Nothing of it has to be scrolled to, and no line runs out of its column.
  const overflow = await page.evaluate(() => {
    const glance = document.querySelector('.glance');
    if (glance === null) return null;
    return [glance.scrollHeight - glance.clientHeight, glance.scrollWidth - glance.clientWidth];
  });
  expect(overflow).toEqual([0, 0]);
  await page.getByTestId('pause').click();
}

function placeOf(page: Page, testId: string) {
  return page.getByTestId(testId).evaluate((element) => {
    const { bottom, right } = element.getBoundingClientRect();
    return { size: parseFloat(getComputedStyle(element).fontSize), bottom, right };
  });
}

/** Whatever there is to do next, it fits under a verdict, too: by its own words, each put in its place. */
async function stepsThatOverflow(page: Page, { next }: Wording): Promise<string[]> {
  const written = (text: unknown) =>
    typeof text === 'function'
      ? String(
          Reflect.apply(text, undefined, [{ depth: '250 micron', more: '25 min', left: '25 min' }]),
        )
      : String(text);
  const steps = Object.values(next).flatMap((step) =>
    typeof step === 'string' ? [] : [{ todo: written(step.todo), how: written(step.how) }],
  );
  expect(steps.length).toBeGreaterThan(20);
  steps.push({ todo: TOO_LONG, how: '' });
  return page.evaluate((all) => {
    const [glance, todo, how] = ['.glance', '[data-testid=todo]', '[data-testid=how]'].map(
      (which) => document.querySelector(which),
    );
    if (glance == null || todo == null || how == null) return ['there is nothing to do'];
    const fits = (step: { todo: string; how: string }) => {
      todo.textContent = step.todo;
      how.textContent = step.how;
      return glance.scrollHeight <= glance.clientHeight && glance.scrollWidth <= glance.clientWidth;
    };
    return all.filter((step) => !fits(step)).map((step) => step.todo);
  }, steps);
}
