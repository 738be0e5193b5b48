/** Whole jobs whose readings a test plays, each with a page that listens for what is called out. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, vi } from 'vitest';
import { openListening, touch, untilFirstJudged } from './called-out.ts';
import { openBrowser, untilReadings } from './dashboard.ts';
import { PlayedJob } from './played-job.ts';

export interface AlertedJobs {
  /** The one that was begun last. */
  readonly job: PlayedJob;
  /** One without a page yet. */
  readonly newJob: () => Promise<PlayedJob>;
  /** A page that has been touched, on a job that has just begun. */
  readonly begin: (name?: string) => Promise<Page>;
  /** Until the page has judged all that was played. */
  readonly untilJudged: (page: Page) => Promise<void>;
  /** So many parts, with a look at each. */
  readonly inParts: (page: Page, parts: number, play: (part: number) => void) => Promise<void>;
  readonly browser: Browser;
}

/** For one test file: its browser, and one job for each of its tests. */
export function alertedJobs(): AlertedJobs {
  // A whole job is judged in each, part by part; and a silence is waited for.
  vi.setConfig({ testTimeout: 90_000 });
  let browser: Browser;
  let job: PlayedJob;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(() => browser.close());
  afterEach(() => job.bridge.remove());

  async function newJob(name?: string): Promise<PlayedJob> {
    job = await PlayedJob.begin(name);
    return job;
  }

  async function begin(name?: string): Promise<Page> {
    await newJob(name);
    const { page } = await openListening(browser, job.bridge.url);
    await touch(page);
    job.play(5, () => 700_000);
    await untilReadings(page, 5);
    await untilFirstJudged(page);
    await job.mark('pump_on');
    return page;
  }

  async function untilJudged(page: Page): Promise<void> {
    const nowS = Math.floor(job.nowS / 2) * 2;
    await expect
      .poll(() => page.evaluate('window.ebbline.conclusions()?.nowS'), { timeout: 30_000 })
      .toBe(nowS);
  }

  async function inParts(page: Page, parts: number, play: (part: number) => void): Promise<void> {
    for (let part = 0; part < parts; part += 1) {
      play(part);
      await untilJudged(page);
    }
  }

  return {
    newJob,
    begin,
    untilJudged,
    inParts,
    get job() {
      return job;
    },
    get browser() {
      return browser;
    },
  };
}
