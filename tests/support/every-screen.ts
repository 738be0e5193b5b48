/** Walks through all screens of the page, by what a person presses: for what has to hold on each of them. */
import type { Browser, Page } from 'playwright-core';
import { type Opening, untilShown } from './dashboard.ts';
import { rehearse } from './rehearsing.ts';

interface Stop {
  readonly screen: string;
  /** From the live screen, with nothing over it. */
  readonly open: (page: Page) => Promise<void>;
}

const fromMenu = (screen: string): Stop => ({
  screen,
  open: async (page) => {
    await page.getByTestId('menu').click();
    await page.getByTestId(`open-${screen}`).click();
  },
});

const byButton = (screen: string, testId: string): Stop => ({
  screen,
  open: (page) => page.getByTestId(testId).click(),
});

const WORK = ['nitrogen', 'hook_up', 'pull_down', 'rise', 'closing_up'];

/** Of a rehearsal that runs; the last one ends in its reveal. */
const STOPS: readonly Stop[] = [
  { screen: 'live', open: () => Promise.resolve() },
  byButton('menu', 'menu'),
  ...[
    'rehearse',
    'type-in',
    'recordings',
    'prepared',
    'sheet',
    'steps',
    'rig',
    'nitrogen',
    'cycles',
    'hunt',
    'volume',
    'pump-check',
    'sensors',
    'second-screen',
    'settings',
  ].map(fromMenu),
  {
    screen: 'new-prepared',
    open: async (page) => {
      await page.getByTestId('menu').click();
      await page.getByTestId('open-prepared').click();
      await page.getByTestId('new-prepared').click();
      await page.getByTestId('prepared-form').waitFor();
    },
  },
  {
    screen: 'prepared-volume',
    open: async (page) => {
      await page.getByTestId('menu').click();
      await page.getByTestId('open-prepared').click();
      await page.getByTestId('new-prepared').click();
      await page.getByTestId('prepare-volume').click();
      await page.getByTestId('volume-panel').waitFor();
    },
  },
  byButton('more', 'more-marks'),
  byButton('note', 'mark-note'),
  ...WORK.map((place) => byButton(`work-${place}`, `work-${place}`)),
  {
    screen: 'results',
    open: async (page) => {
      await page.getByTestId('menu').click();
      await page.getByTestId('open-rehearse').click();
      await page.getByTestId('open-results').click();
    },
  },
  byButton('ending', 'stop'),
  byButton('call', 'call'),
  {
    screen: 'reveal',
    open: async (page) => {
      await page.getByTestId('call').click();
      await page.getByTestId('without-call').click();
      await page.getByTestId('truth').waitFor();
    },
  },
];

/** Begins a rehearsal, and looks at each of its screens in turn. */
export async function visitEachScreen(
  browser: Browser,
  url: string,
  look: (page: Page, screen: string) => Promise<void>,
  opening: Opening = {},
): Promise<void> {
  const { page } = await rehearse(browser, url, 'lindens-dental-practice', opening);
  await untilShown(page, 'outcome', 'reaches');
  await page.getByTestId('pause').click();
  await untilShown(page, 'freshness', 'paused');
  for (const { screen, open } of STOPS) {
    await open(page);
    await look(page, screen);
    const close = page.getByTestId('close-panel');
    if (await close.isVisible()) await close.click();
  }
  await page.context().close();
}
