/**
 * Two invented jobs, from the empty sheet to the signed report: one wet, dried by three evacuations; one with a leak in
 * its liquid line, found by sections. `tests/output/job-*.png` shows each screen.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { CLOSING_STEPS } from '../../protocol/ticked-steps.ts';
import { paFromMicron } from '../../protocol/units.ts';
import { PRIORY_STREET_GYMNASIUM } from '../../simulators/scenarios/priory-street-gymnasium.ts';
import { ROPEWALK_PRINT_SHOP } from '../../simulators/scenarios/ropewalk-print-shop.ts';
import type { Scenario } from '../../simulators/scenarios/scenario.ts';
import {
  openBrowser,
  openDashboard,
  picture,
  untilReadings,
  untilShown,
} from '../support/dashboard.ts';
import { examinePdf } from '../support/poppler.ts';
import { WorkedRig } from '../support/worked-rig.ts';

const PATIENCE_MS = 300_000;

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

interface Job {
  readonly page: Page;
  readonly rig: WorkedRig;
  readonly complaints: readonly string[];
}

async function begin(scenario: Scenario): Promise<Job> {
  const rig = await WorkedRig.begin(scenario);
  const { page, complaints } = await openDashboard(browser, rig.bridge.url);
  page.setDefaultTimeout(20_000);
  return { page, rig, complaints };
}

async function open({ page }: Job, panel: string): Promise<void> {
  await page.getByTestId('menu').click();
  await page.getByTestId(`open-${panel}`).click();
}

async function close({ page }: Job): Promise<void> {
  await page.getByTestId('close-panel').click();
}

/** In the van, before anything is connected. */
async function prepare({ page }: Job, sheet: Readonly<Record<string, string>>): Promise<void> {
  await page.getByTestId('prepare-sheet').click();
  await page.getByTestId('new-prepared').click();
  for (const group of ['sheet-system', 'sheet-place', 'sheet-people'])
    await page.getByTestId(group).locator('summary').click();
  for (const [name, value] of Object.entries(sheet)) {
    const field = page.locator(`[name=${name}]`);
    if ((await field.evaluate(({ tagName }) => tagName)) === 'SELECT')
      await field.selectOption(value);
    else await field.fill(value);
  }
}

/** The page has what was played; then the mark is of that moment. */
async function mark({ page, rig }: Job, kind: string): Promise<void> {
  await untilReadings(page, rig.count);
  const button = page.locator(`.marks [data-testid=mark-${kind}]`);
  if ((await button.count()) === 0) {
    await page.getByTestId('more-marks').click();
    await page.getByTestId(`mark-${kind}`).first().click();
    if ((await page.getByTestId('close-panel').count()) > 0)
      await close({ page, rig, complaints: [] });
    return;
  }
  await button.click();
}

async function sign(job: Job, remark: string): Promise<void> {
  await open(job, 'sign');
  const { page } = job;
  await page.locator('input[name=name]').fill('R. Vane');
  await page.locator('input[name=licence]').fill('L-2047');
  await page.locator('[name=remark]').fill(remark);
  await page.getByTestId('sign-panel').getByRole('button', { name: 'Sign off' }).click();
  await page.getByTestId('signed').getByText('R. Vane').waitFor();
  await close(job);
}

async function printed({ rig }: Job): Promise<string> {
  const answer = await fetch(new URL('api/recordings/1/report.pdf', rig.bridge.url));
  expect(answer.status).toBe(200);
  return examinePdf(Buffer.from(await answer.arrayBuffer()))
    .pages.join('\n')
    .replaceAll(/\s+/gu, ' ');
}

test(
  'a flooded system is dried by three evacuations, closed up and signed',
  { timeout: PATIENCE_MS },
  async () => {
    const job = await begin(PRIORY_STREET_GYMNASIUM);
    const { page, rig } = job;
    await prepare(job, {
      site: 'Priory Street 4',
      equipment: 'Two cassettes, changing rooms',
      serial: 'PS-0417',
      refrigerant: 'R-32',
      oil: 'poe',
      systemHistory: 'flooded',
      altitudeM: '120',
      ambientTemperatureC: '22',
      people: 'R. Vane, I. Holm',
      valveOrder: 'Gas valve a quarter turn, then liquid valve fully, then gas valve fully.',
    });
    await picture(page, 'job-wet-01-prepared');
    await page.getByTestId('keep-prepared').click();
    await page.getByTestId('prepared-1').waitFor();
    await close(job);

    rig.meet('Roof gauge');
    await rig.go(20);
    await untilShown(page, 'freshness', 'live');
    await page.getByTestId('take-over').click();
    await expect.poll(() => page.getByTestId('job').innerText()).toContain('Priory Street 4');

    // The nitrogen test was yesterday, with a fine gauge and a fine thermometer.
    await open(job, 'nitrogen');
    const nitrogen = page.getByTestId('nitrogen-form');
    await page.getByRole('radio', { name: 'bar (gauge)' }).check();
    for (const [pressure, temperature, when] of [
      ['41.00', '21.0', '-1 h'],
      ['41.02', '21.1', ''],
    ] as const) {
      await nitrogen.locator('input[name=pressure]').fill(pressure);
      await nitrogen.locator('input[name=temperature]').fill(temperature);
      await nitrogen.locator('input[name=when]').fill(when);
      await nitrogen.getByRole('button', { name: 'Enter', exact: true }).click();
    }
    await page.getByTestId('nitrogen-said-headline').waitFor();
    await picture(page, 'job-wet-02-nitrogen');
    await close(job);

    await open(job, 'volume');
    await page.getByTestId('fill-preset').click();
    await page
      .getByTestId('volume-panel')
      .getByRole('button', { name: 'Enter', exact: true })
      .click();
    await page.getByTestId('take-volume').first().click();
    await picture(page, 'job-wet-03-volume');
    await close(job);
    await open(job, 'rig');
    for (const [name, value] of Object.entries({
      pumpDisplacementM3PerS: '6 cfm',
      pumpUltimatePa: '25',
      hoseBoreM: '9.5',
      hoseLengthM: '0.9',
      hoseCount: '1',
    }))
      await page.locator(`input[name=${name}]`).fill(value);
    await page.locator('select[name=core]').selectOption('out');
    await page.getByTestId('rig-panel').getByRole('button', { name: 'Enter', exact: true }).click();
    await page.getByTestId('rig-result').waitFor();
    await picture(page, 'job-wet-04-rig');
    await close(job);
    await open(job, 'cycles');
    await page.getByTestId('plan-form').locator('select[name=from]').selectOption('teaching');
    await page.getByTestId('plan-form').getByRole('button', { name: 'Enter', exact: true }).click();
    await picture(page, 'job-wet-05-plan');
    await close(job);

    rig.act('pump_on');
    await mark(job, 'pump_on');
    const depths = [3800, 1400] as const;
    for (const [at, depth] of depths.entries()) {
      if (at === 1) {
        expect(await rig.goBelow(paFromMicron(3000), 5400)).toBe(true);
        rig.act('ballast_close');
        await mark(job, 'ballast_closed');
      }
      expect(await rig.goBelow(paFromMicron(depth), 5400)).toBe(true);
      await rig.go(300);
      rig.act('isolate');
      await mark(job, 'isolated');
      await rig.go(at === 0 ? 960 : 1260);
      await untilReadings(page, rig.count);
      await picture(page, `job-wet-06-hold-${at + 1}`);
      rig.act('break_with_nitrogen');
      await mark(job, 'nitrogen_break');
      await rig.go(600);
      rig.act('reopen');
      await mark(job, 'reopened');
      await rig.go(5);
    }
    expect(await rig.goBelow(paFromMicron(240), 5400)).toBe(true);
    await rig.go(600);
    await open(job, 'cycles');
    await picture(page, 'job-wet-07-cycles');
    await close(job);
    rig.act('isolate');
    await mark(job, 'isolated');
    await rig.go(30);
    rig.act('pump_off');
    await mark(job, 'pump_off');
    await rig.go(960);
    await untilReadings(page, rig.count);
    await page.getByTestId('headline').getByText('Tight and dry').waitFor();
    await picture(page, 'job-wet-08-verdict');

    await page.getByTestId('work-closing_up').click();
    await picture(page, 'job-wet-09-closing');
    for (const step of CLOSING_STEPS) {
      const row = page.getByTestId(`step-${step}`);
      await row.getByRole('button').first().click();
      await expect.poll(() => row.getAttribute('data-state')).toBe('done');
    }
    await picture(page, 'job-wet-10-closed');
    await close(job);
    await rig.go(30);
    await untilReadings(page, rig.count);
    await page.getByTestId('headline').getByText('Tight and dry').waitFor();
    await sign(job, 'Dried in three evacuations.');
    const report = await printed(job);
    for (const said of [
      'Priory Street 4',
      'Tight and dry',
      'R. Vane',
      'R-32',
      'Nitrogen test',
      'PS-0417',
    ])
      expect(report).toContain(said);
    expect(job.complaints).toEqual([]);
    await page.context().close();
    await rig.bridge.remove();
  },
);

test(
  'a leak in the liquid line is found by sections, and nothing is passed',
  { timeout: PATIENCE_MS },
  async () => {
    const job = await begin(ROPEWALK_PRINT_SHOP);
    const { page, rig } = job;
    await prepare(job, {
      site: 'Ropewalk 7',
      equipment: 'Ceiling unit, press hall',
      refrigerant: 'R-290',
      systemHistory: 'opened',
    });
    await page.getByTestId('keep-prepared').click();
    await close(job);
    rig.meet('Suction gauge');
    await rig.go(20);
    await untilShown(page, 'freshness', 'live');
    await page.getByTestId('take-over').click();
    rig.act('pump_on');
    await mark(job, 'pump_on');
    await rig.go(120);
    rig.act('ballast_close');
    await mark(job, 'ballast_closed');
    expect(await rig.goBelow(paFromMicron(250), 2400)).toBe(true);
    rig.act('isolate');
    await mark(job, 'isolated');
    await rig.go(900);
    await untilReadings(page, rig.count);
    await page.getByTestId('headline').getByText('Leak').waitFor();
    await picture(page, 'job-leak-01-verdict');

    await open(job, 'hunt');
    const sees = page.getByTestId('sees-now');
    const add = async (name: string) => {
      await page.locator('input[name=section]').fill(name);
      await page.getByRole('button', { name: 'It sees this one' }).click();
      await sees.getByRole('button', { name, exact: true, pressed: true }).waitFor();
    };
    await close(job);
    rig.act('reopen');
    await mark(job, 'reopened');
    expect(await rig.goBelow(paFromMicron(250), 2400)).toBe(true);
    rig.act('shut_sections');
    await mark(job, 'sections_shut');
    await rig.go(60);
    rig.act('isolate');
    await mark(job, 'isolated');
    await untilReadings(page, rig.count);
    await open(job, 'hunt');
    await add('All but the liquid line');
    await rig.go(600);
    await untilReadings(page, rig.count);
    await page.getByTestId('hunt-said').waitFor();
    await picture(page, 'job-leak-02-hunt');
    await close(job);
    // A part that holds is no pass.
    await expect.poll(() => page.getByTestId('headline').innerText()).not.toContain('Tight');
    await picture(page, 'job-leak-03-part');
    await sign(job, 'Leak in the liquid line, to be brazed anew.');
    const report = await printed(job);
    for (const said of ['Ropewalk 7', 'R. Vane', 'All but the liquid line'])
      expect(report).toContain(said);
    expect(job.complaints).toEqual([]);
    await page.context().close();
    await rig.bridge.remove();
  },
);
