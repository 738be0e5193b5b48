/** A page whose loudspeaker, vibration, speech and notifications are counted, for tests of alerts. */
import type { Browser, Page } from 'playwright-core';
import { expect } from 'vitest';
import { z } from 'zod';
import { openDashboard } from './dashboard.ts';
import type { Dashboard } from './dashboard.ts';

/**
 * Stands in for what a browser has at its edge. The loudspeaker begins to work with the first gesture, as
 * browsers have it; a ring has several oscillators, all begun without a pause between.
 */
const EDGE = `
  let aheadMs = 0;
  const ownClock = performance.now.bind(performance);
  performance.now = () => ownClock() + aheadMs;
  window.goOnBy = (ms) => (aheadMs += ms);
  const heard = { rings: 0, oscillators: 0, gains: [], vibrated: [], spoken: [], notified: [], closed: 0 };
  window.heard = heard;
  let isRinging = false;
  const param = (record) => ({
    value: 0, setValueAtTime: () => {},
    linearRampToValueAtTime: (value) => record && heard.gains.push(value),
  });
  const node = (more) => Object.assign({ connect: (next) => next }, more);
  let touched = false;
  addEventListener('click', () => (touched = true), true);
  addEventListener('keydown', () => (touched = true), true);
  window.AudioContext = class extends EventTarget {
    state = 'suspended'; currentTime = 0; destination = node({}); onstatechange = null;
    resume() {
      if (!touched) return new Promise(() => {});
      this.state = 'running';
      return Promise.resolve();
    }
    createGain() { return node({ gain: param(true) }); }
    createOscillator() {
      return node({
        frequency: param(false),
        start: () => {
          heard.oscillators += 1;
          if (!isRinging) heard.rings += 1;
          isRinging = true;
          queueMicrotask(() => (isRinging = false));
        },
        stop: () => {},
      });
    }
  };
  navigator.vibrate = (pattern) => (heard.vibrated.push(pattern), true);
  Object.defineProperty(window, 'speechSynthesis', { value: {
    cancel: () => {}, speak: ({ text, lang }) => heard.spoken.push([lang, text]),
  } });
  window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; this.lang = ''; } };
  window.Notification = class {
    static permission = 'default';
    static requestPermission() { Notification.permission = 'granted'; return Promise.resolve('granted'); }
    constructor(title, { body }) { heard.notified.push([title, body]); }
    close() { heard.closed += 1; }
  };
`;

const heardSchema = z.object({
  rings: z.int(),
  oscillators: z.int(),
  /** What the loudness was turned to, in order. */
  gains: z.array(z.number()),
  vibrated: z.array(z.array(z.number())),
  spoken: z.array(z.tuple([z.string(), z.string()])),
  notified: z.array(z.tuple([z.string(), z.string()])),
  closed: z.int(),
});

/** @param more further script of the test's own */
export function openListening(browser: Browser, url: string, more = ''): Promise<Dashboard> {
  return openDashboard(browser, url, { script: EDGE + more });
}

/** What has been called out since the page was loaded. */
export async function heardOn(page: Page) {
  return heardSchema.parse(await page.evaluate('window.heard'));
}

/** As a person would, so that the browser lets it sound; nothing on the page happens by it. */
export async function touch(page: Page): Promise<void> {
  await page.keyboard.press('Shift');
}

/** The page's own clock is put forward: what has stood for a while has stood for so much longer. */
export async function putForward(page: Page, ms: number): Promise<void> {
  await page.evaluate(`window.goOnBy(${ms})`);
}

/** Title of the alert that stands on top, and what it is of. */
export async function shownAlert(page: Page) {
  const alert = page.getByTestId('alert');
  return {
    kind: await alert.getAttribute('data-kind'),
    tone: await alert.getAttribute('data-tone'),
    title: await page.getByTestId('alert-title').innerText(),
  };
}

export async function untilAlert(page: Page, kind: string): Promise<void> {
  await page.locator(`[data-testid="alert"][data-kind="${kind}"]`).waitFor({ timeout: 60_000 });
}

/** The banner stands a moment before its sound is asked for. */
export async function untilRings(page: Page, count: number): Promise<void> {
  await expect.poll(async () => (await heardOn(page)).rings).toBe(count);
}

/** Until the page has judged what it has: what is due before that is no news to it, and calls nobody. */
export async function untilFirstJudged(page: Page): Promise<void> {
  await expect
    .poll(() => page.evaluate('window.ebbline.conclusions() !== null'), { timeout: 30_000 })
    .toBe(true);
}
