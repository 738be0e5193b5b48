/** A recording that is over: by its name and sign, and while another one runs, without anything of that. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser, picture, untilOtherRecording, untilShown } from '../support/dashboard.ts';
import { endRehearsal, rehearse } from '../support/rehearsing.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

let bridge: RunningBridge;
let browser: Browser;

beforeAll(async () => {
  [bridge, browser] = await Promise.all([runBridge(), openBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
});

test('it is called finished, by its own name', { timeout: 120_000 }, async () => {
  // Slowly: a busy machine shall not be in the hold already, where something is concluded.
  const { page, complaints } = await rehearse(
    browser,
    bridge.url,
    'weir-street-archive',
    {},
    '×60',
  );
  await untilShown(page, 'stage', 'pull_down');
  const first = await page.evaluate(() => document.documentElement.dataset['recording'] ?? '');
  const place = await page.getByTestId('job').innerText();
  expect(place).toContain('Weir Street');
  await expect.poll(() => sign(page)).toMatchObject({ isFilled: true });

  // A slip of the glove ends nothing.
  await page.getByTestId('stop').click();
  await page.getByTestId('ending-panel').waitFor();
  await page.keyboard.press('Escape');
  await expect.poll(() => page.getByTestId('ending-panel').count()).toBe(0);
  await expect
    .poll(() => page.evaluate(() => document.activeElement?.getAttribute('data-testid')))
    .toBe('stop');
  await expect.poll(() => page.getByTestId('rate').isVisible()).toBe(true);
  await endRehearsal(page);

  await untilShown(page, 'freshness', 'ended');
  for (const look of ['day', 'night', 'sun']) {
    await page.evaluate((chosen) => (document.documentElement.dataset['look'] = chosen), look);
    await expect
      .poll(() => sign(page), { message: look })
      .toEqual({ isFilled: false, isRound: true, isOfInk: true });
    await picture(page, `finished-${look}`);
  }
  // Nothing is concluded of it, and what there is stands together.
  await expect.poll(() => page.getByTestId('headline').count()).toBe(0);
  const [stage, number] = [await boxOf(page, 'stage'), await boxOf(page, 'number')];
  expect(number.y - (stage.y + stage.height)).toBeLessThan(60);
  await expect.poll(() => page.getByTestId('job').innerText()).toBe(place);
  await page.getByTestId('another').click();
  await page.getByTestId('rehearsal-quarry-road-bakery').locator('summary').click();
  await page.getByTestId('start-quarry-road-bakery').click();
  await untilOtherRecording(page, first);
  await page.getByTestId('connection-state').getByText('live').waitFor();

  await page.getByTestId('menu').click();
  await page.getByTestId('open-recordings').click();
  await page.getByTestId(`job-${first}-0`).getByRole('button').first().click();
  const state = page.getByTestId('connection-state');
  await expect.poll(() => state.innerText()).toContain('finished');
  await expect.poll(() => state.innerText()).not.toContain('live');
  await expect.poll(() => page.getByTestId('job').innerText()).toBe(place);
  await page.getByText('Its alerts still call you').waitFor();
  await picture(page, 'old-recording');
  expect(complaints).toEqual([]);
  await page.context().close();
});

/** The sign beside the words of the connection: a disc of a colour, or a ring of ink. */
function sign(page: Page) {
  return page.locator('.state > .sign').evaluate((element) => {
    const {
      backgroundColor,
      borderRadius,
      borderTopColor,
      borderLeftColor,
      borderTopWidth,
      color,
    } = getComputedStyle(element);
    return {
      isFilled: backgroundColor !== 'rgba(0, 0, 0, 0)',
      isRound: borderRadius === '50%',
      isOfInk:
        Number.parseFloat(borderTopWidth) >= 3 &&
        borderTopColor === color &&
        borderLeftColor === color,
    };
  });
}

async function boxOf(page: Page, testId: string) {
  const box = await page.getByTestId(testId).boundingBox();
  if (box === null) throw new Error(`${testId} is not to be seen`);
  return box;
}
