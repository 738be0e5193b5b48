/** Every alert keeps within the screen of a phone, in each language, and its edge is seen in every look. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { z } from 'zod';
import { recordingDetailSchema } from '../../protocol/api.ts';
import type { Recording } from '../../protocol/recording.ts';
import { type Opening, openBrowser, openDashboard, picture } from '../support/dashboard.ts';
import { ALERT_KINDS, lookAtEachAlert, rememberingEveryAlert } from '../support/every-alert.ts';
import { PlayedSensors } from '../support/played-sensors.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';
import { inBrackets } from '../support/speaking-in-brackets.ts';

const PHONE = { width: 390, height: 844 };
const LOOKS = ['day', 'night', 'sun'] as const;
/** For what is needed to understand what is shown (WCAG 2.2, 1.4.11). */
const LEAST_CONTRAST = 3;

let browser: Browser;
let bridge: RunningBridge;
let recording: Recording;

beforeAll(async () => {
  const sensors = new PlayedSensors();
  [bridge, browser] = await Promise.all([runBridge({ sensors }), openBrowser()]);
  sensors.meet('aa:01', 'roof');
  sensors.measure('aa:01', 1, 90_000);
  const address = new URL('api/recordings/1', bridge.url);
  await vi.waitFor(async () => {
    const detail = await (await fetch(address)).json();
    ({ recording } = recordingDetailSchema.parse(detail));
  });
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
});

/** What of the alert lies outside of what holds it, or of the screen; as names of its parts. */
function leftOutside(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const banner = document.querySelector('.alert');
    if (banner === null) return ['the alert itself'];
    const room = banner.getBoundingClientRect();
    const words = document.createRange();
    const found: string[] = [];
    for (const part of banner.querySelectorAll('*')) {
      words.selectNodeContents(part);
      for (const { left, right, top, bottom, width } of [
        part.getBoundingClientRect(),
        words.getBoundingClientRect(),
      ]) {
        // Half a pixel is rounding.
        const isIn =
          left >= Math.max(0, room.left) - 0.5 &&
          right <= Math.min(room.right, document.documentElement.clientWidth) + 0.5 &&
          top >= room.top - 0.5 &&
          bottom <= room.bottom + 0.5;
        if (width > 1 && !isIn) found.push(`${part.tagName} ${part.className}`.trim());
      }
    }
    if (document.documentElement.scrollWidth > document.documentElement.clientWidth) {
      found.push('the page is wider than the screen');
    }
    return found;
  });
}

test.each(['en-US', 'es-ES', 'in brackets'])('%s: no alert overflows a phone', async (locale) => {
  const speaking: Opening = locale === 'in brackets' ? await inBrackets() : { context: { locale } };
  const { page } = await openDashboard(browser, bridge.url, {
    ...speaking,
    script: rememberingEveryAlert(recording),
    context: { ...speaking.context, viewport: PHONE },
  });
  const kinds = new Set<string>();
  const outside: string[] = [];
  await lookAtEachAlert(page, async ({ kind, title }) => {
    if (!kinds.has(kind)) await picture(page, `alert-${kind}-${locale}`);
    kinds.add(kind);
    outside.push(...(await leftOutside(page)).map((part) => `${kind}, ${title}: ${part}`));
  });
  expect(outside).toEqual([]);
  expect([...kinds].sort()).toEqual(ALERT_KINDS);
  await page.context().close();
});

const ROW = z.array(z.tuple([z.number(), z.number(), z.number()]));

/** The colours across the left end of the alert, from the page's own edge on. */
async function leftEnd(page: Page): Promise<z.infer<typeof ROW>> {
  const box = await page.getByTestId('alert').boundingBox();
  if (box === null) throw new Error('there is no alert');
  const clip = { x: box.x, y: box.y + box.height / 2, width: 26, height: 1 };
  const png = (await page.screenshot({ clip })).toString('base64');
  const drawn = await page.evaluate(async (data) => {
    const image = new Image();
    image.src = `data:image/png;base64,${data}`;
    await image.decode();
    const context = new OffscreenCanvas(image.width, 1).getContext('2d');
    context?.drawImage(image, 0, 0);
    const { data: bytes } = context?.getImageData(0, 0, image.width, 1) ?? { data: [] };
    return Array.from({ length: image.width }, (_, x) => [...bytes.slice(4 * x, 4 * x + 3)]);
  }, png);
  return ROW.parse(drawn);
}

/** Relative luminance, and the contrast of two (WCAG 2.2, Definitions). */
function contrast(one: readonly number[], other: readonly number[]): number {
  const [low = 0, high = 0] = [one, other]
    .map((rgb) => {
      const [red = 0, green = 0, blue = 0] = rgb.map((byte) => {
        const share = byte / 255;
        return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
    })
    .sort((a, b) => a - b);
  return (high + 0.05) / (low + 0.05);
}

test.each(LOOKS)('by %s the edge of each alert stands clear of its ground', async (look) => {
  const { page } = await openDashboard(browser, bridge.url, {
    context: { locale: 'en-US' },
    script: `${rememberingEveryAlert(recording)}
      localStorage.setItem('ebbline.choices', '{"pressure":"micron","temperature":"°C","look":"${look}"}');`,
  });
  const tones = new Map<string, number>();
  await lookAtEachAlert(page, async () => {
    const tone = (await page.getByTestId('alert').getAttribute('data-tone')) ?? '';
    if (tones.has(tone)) return;
    await picture(page, `edge-${tone}-${look}`);
    const [outermost = [0, 0, 0], ...row] = await leftEnd(page);
    const paper = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    const ground = (paper.match(/\d+/gu) ?? []).slice(0, 3).map(Number);
    // From the page's ground to the alert's own: what is crossed on the way has to be seen against both.
    expect(contrast(ground, outermost), `${tone}, ${look}`).toBeGreaterThanOrEqual(LEAST_CONTRAST);
    const steps = row.filter(
      (colour, at) => contrast(colour, row[at - 1] ?? outermost) >= LEAST_CONTRAST,
    );
    tones.set(tone, steps.length);
  });
  // Whole: into it and out of it. In blocks: twice. As hazard stripes: as it comes, but clear of the ink.
  expect(tones.get('good')).toBe(2);
  expect(tones.get('act')).toBe(4);
  expect(tones.get('warning')).toBeGreaterThanOrEqual(1);
  await page.context().close();
});
