/** Several windows of one browser, hidden ones, and one that shows another recording: one calls, none is lost. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import {
  heardOn,
  openListening,
  shownAlert,
  touch,
  untilAlert,
  untilFirstJudged,
} from '../support/called-out.ts';
import { openBrowser, picture, untilReadings } from '../support/dashboard.ts';
import { paFromMicron } from '../../protocol/units.ts';
import { PlayedJob } from '../support/played-job.ts';

let browser: Browser;
let job: PlayedJob;

beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());
beforeEach(async () => {
  job = await PlayedJob.begin();
  job.play(5, () => 700_000);
});
afterEach(() => job.bridge.remove());

async function settled(page: Page): Promise<Page> {
  await untilReadings(page, 5);
  await untilFirstJudged(page);
  return page;
}

/** A touched window of a browser of its own. */
async function open(script = ''): Promise<Page> {
  const { page } = await openListening(browser, job.bridge.url, script);
  await settled(page);
  await touch(page);
  return page;
}

/** Another window of the same browser. */
async function openBeside(first: Page): Promise<Page> {
  const page = await first.context().newPage();
  await page.goto(job.bridge.url);
  return settled(page);
}

async function reachTarget(): Promise<void> {
  await job.mark('pump_on');
  job.pullDown(300, 700_000, 400, 25);
}

/** A second sensor, once a second between these moments of data time. */
function playSecond(fromS: number, toS: number, micronAt: (sinceS: number) => number): void {
  for (let s = fromS; s < toS; s += 1)
    job.sensors.measure('aa:02', s + 0.4, paFromMicron(micronAt(s - fromS)));
}

async function readInAnOldFile(): Promise<void> {
  const rows = Array.from({ length: 60 }, (_, second) => `${second},${1200 - second},`);
  const csv = ['elapsed_s,pressure_pa,event', ...rows];
  const read = await fetch(new URL('api/imports?name=older.csv', job.bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'text/csv' },
    body: csv.join('\n'),
  });
  expect(read.status).toBe(201);
}

async function openRecording(page: Page, id: number): Promise<void> {
  await page.getByTestId('menu').click();
  await page.getByTestId('open-recordings').click();
  await page.getByTestId(`job-${id}-0`).getByRole('button').first().click();
}

const gone = (page: Page) => page.getByTestId('alert').waitFor({ state: 'detached' });
const rings = async (page: Page) => (await heardOn(page)).rings;

test('of two windows one rings, both show it, and seen in one it goes from both', async () => {
  const first = await open();
  const second = await openBeside(first);
  await reachTarget();
  for (const page of [first, second]) await untilAlert(page, 'target');
  expect([await rings(first), await rings(second)]).toEqual([1, 0]);
  await second.getByTestId('seen').click();
  await gone(first);
  await gone(second);
  // That press allowed the second one to sound: it calls from then on.
  job.pullDown(200, 400, 150, 25);
  for (const page of [first, second]) await untilAlert(page, 'depth');
  expect([await rings(first), await rings(second)]).toEqual([1, 1]);
});

test('with the window that called closed, the other one calls', async () => {
  const first = await open();
  const second = await openBeside(first);
  await first.getByTestId('menu').click();
  await second.bringToFront();
  await reachTarget();
  for (const page of [first, second]) await untilAlert(page, 'target');
  await first.close();
  job.pullDown(200, 400, 150, 25);
  await untilAlert(second, 'depth');
  // Nobody has touched it, so no browser lets it sound: it says so itself.
  await second.getByText('Not heard').waitFor();
  // What the first one had said the second does not say again.
  await second.getByTestId('alerts-before').click();
  await expect.poll(() => second.locator('[data-kind="target"]').count()).toBe(1);
});

test('the one that may sound calls, also where another one came to the turn first', async () => {
  const touched = await open();
  // Never touched, and next in turn.
  await openBeside(touched);
  const last = await openBeside(touched);
  await touch(last);
  await last.close();
  await reachTarget();
  await untilAlert(touched, 'target');
  await expect.poll(() => rings(touched)).toBe(1);
});

test('two windows with a sensor each: each calls for its own', async () => {
  job.sensors.meet('aa:02', 'Second sensor');
  playSecond(0, 5, () => 700_000);
  const first = await open();
  const second = await openBeside(first);
  await second.getByTestId('sensor-choice').selectOption({ label: 'Second sensor' });
  await touch(second);
  await job.mark('pump_on');
  // Only the second one gets below the target.
  playSecond(5, 310, (s) => 400 + 700_000 * Math.exp(-s / 25));
  job.pullDown(305, 700_000, 5000, 25);
  await untilAlert(second, 'target');
  await untilAlert(first, 'target');
  expect([await rings(first), await rings(second)]).toEqual([0, 1]);
  job.pullDown(200, 5000, 420, 25);
  await expect.poll(() => rings(first)).toBe(1);
  expect(await rings(second)).toBe(1);
});

test('a browser that keeps nothing and gives no lock still calls', async () => {
  const page = await open(`
    const refuse = () => { throw new DOMException('refused', 'SecurityError'); };
    for (const store of ['localStorage', 'sessionStorage'])
      Object.defineProperty(window, store, { get: refuse });
    let asked = 0;
    Object.defineProperty(window, 'asked', { get: () => asked });
    navigator.locks.request = () => (asked += 1, Promise.reject(new DOMException('no', 'SecurityError')));
  `);
  await reachTarget();
  await untilAlert(page, 'target');
  expect(await rings(page)).toBe(1);
  // Refused once is refused: it does not ask for ever.
  expect(await page.evaluate('window.asked')).toBeLessThan(20);
});

test('hidden, where the page’s own timers are slowed, it calls in time and again', async () => {
  const page = await open(`
    Object.defineProperty(document, 'hidden', { get: () => true });
    const soon = window.setTimeout;
    window.setTimeout = (run, delayMs = 0, ...rest) => delayMs < 50 ? soon(run, delayMs, ...rest) : 0;
    window.setInterval = () => 0;
    localStorage.setItem('ebbline.alert-choices', JSON.stringify(
      { sound: 'bell_buoy', volume: 0.8, repeat: 'until_seen', vibrate: true, spoken: false }));
  `);
  await reachTarget();
  await untilAlert(page, 'target');
  expect(await rings(page)).toBe(1);
  job.pullDown(200, 400, 150, 25);
  await untilAlert(page, 'depth');
  expect(await rings(page)).toBe(2);
  await expect.poll(() => rings(page), { timeout: 20_000 }).toBe(3);
});

test('a sensor that was chosen is heard on while an old recording is looked at', async () => {
  await readInAnOldFile();
  job.sensors.meet('aa:02', 'Second sensor');
  playSecond(0, 5, () => 700_000);
  const page = await open();
  await page.getByTestId('sensor-choice').selectOption({ label: 'Second sensor' });
  await openRecording(page, 2);
  await expect.poll(() => page.evaluate('window.ebbline.heard()[1] !== null')).toBe(true);
  await job.mark('pump_on');
  playSecond(5, 310, (s) => 400 + 700_000 * Math.exp(-s / 25));
  await untilAlert(page, 'target');
  expect(await rings(page)).toBe(1);
  // And it is still the one that is watched, back there.
  await page.getByTestId('show-its-recording').click();
  await expect
    .poll(() => page.getByTestId('connection-state').innerText())
    .toContain('Second sensor');
});

test('a recording that runs beside is heard, and its alert stays when it has ended', async () => {
  const page = await open();
  const type = async (what: string, body: unknown) => {
    const answer = await fetch(new URL(`api/typed-in${what}`, job.bridge.url), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    expect(answer.ok).toBe(true);
  };
  const pressuresPa = [20_000, 3000, 600, 200, 90, 60, 58, 57, 57, 56, 56];
  for (const [at, pressurePa] of pressuresPa.entries())
    await type('', { pressurePa, temperatureC: null, agoS: 3300 - at * 300 });
  await untilAlert(page, 'target');
  await type('/end', {});
  const alert = page.getByTestId('alert');
  await expect.poll(() => alert.innerText()).toContain('In another recording: Job, typed in');
  // As long as it takes to hear that it has ended, and then some: the page goes on with its own.
  await page.waitForTimeout(2000);
  await expect
    .poll(() => page.getByTestId('connection-state').innerText())
    .toContain('Roof sensor');
  await page.getByTestId('seen').click();
  await gone(page);
});

test('while an old recording is looked at, the running one calls and can be marked', async () => {
  await readInAnOldFile();
  const page = await open();
  await openRecording(page, 2);
  await page.getByText('Its alerts still call you.').waitFor();
  await page.getByTestId('number').waitFor();
  await expect.poll(() => page.evaluate('window.ebbline.heard()[1] !== null')).toBe(true);
  await job.mark('pump_on');
  job.pullDown(400, 700_000, 200, 25);
  await untilAlert(page, 'depth');
  expect(await rings(page)).toBe(1);
  const detail = await page.getByTestId('alert').innerText();
  expect(detail).toContain('In another recording: Job, Roof sensor.');
  await picture(page, 'alert-of-another');
  await page.getByTestId('alert-isolated').click();
  await expect.poll(async () => (await shownAlert(page)).kind, { timeout: 20_000 }).toBe('target');
  const answer = await fetch(new URL('api/recordings/1', job.bridge.url));
  expect(await answer.json()).toMatchObject({ marks: [{ kind: 'pump_on' }, { kind: 'isolated' }] });
  // Back at the running one nothing is called again, and what comes next is called once.
  await page.getByTestId('show-its-recording').click();
  await untilReadings(page, 400);
  job.play(20, () => 205);
  await untilReadings(page, 420);
  expect(await rings(page)).toBe(1);
});

test('seen while the bridge is away, it is told after a reload', async () => {
  const laptop = await open();
  const phone = await open();
  await reachTarget();
  for (const page of [laptop, phone]) await untilAlert(page, 'target');
  await laptop.context().route('**/seen-alerts', (route) => route.abort());
  await laptop.getByTestId('seen').click();
  await gone(laptop);
  await laptop.reload();
  await untilReadings(laptop, 300);
  await expect.poll(() => phone.getByTestId('alert').count()).toBe(1);
  await laptop.context().unroute('**/seen-alerts');
  await laptop.reload();
  await gone(phone);
});
