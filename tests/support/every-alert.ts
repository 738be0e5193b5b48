/** Every alert that there is, in every wording of its own, and a page that shows them one after the other. */
import type { Page } from 'playwright-core';
import type { Recording } from '../../protocol/recording.ts';
import type { LoggedAlert } from '../../web/alerts/alert-log.ts';
import type { Verdict } from '../../protocol/verdicts.ts';
import type { AlertFact, AlertKind } from '../../web/words/alert-fact.ts';

type OfKind<Kind extends AlertKind> = Omit<Extract<AlertFact, { kind: Kind }>, 'kind'>;

const VERDICTS: readonly Verdict[] = [
  'tight_dry',
  'moisture',
  'leak',
  'leak_and_moisture',
  'undecided',
];
const WHEN = { atS: 12_345, sinceS: 9876 };
/** As somebody with several of them would say it. */
const SENSOR = 'Second circuit, liquid line';

/** A new kind does not compile until it stands here. */
const FACTS: { readonly [Kind in AlertKind]: readonly OfKind<Kind>[] } = {
  target: [{ ...WHEN, targetPa: 66.661 }],
  depth: [{ ...WHEN, isolateAtPa: 33.331 }],
  levels_off: [
    { ...WHEN, targetPa: 66.661, floorPa: 123.4 },
    { ...WHEN, targetPa: 66.661, floorPa: null },
  ],
  ballast_open: [WHEN],
  pump_battery: [
    { ...WHEN, leftS: 660, needsS: 4000 },
    { ...WHEN, leftS: 0, needsS: null },
  ],
  verdict: VERDICTS.map((verdict) => ({ ...WHEN, verdict })),
  verdict_changed: VERDICTS.flatMap((verdict) =>
    [...VERDICTS, null].map((before) => ({ ...WHEN, verdict, before })),
  ),
  vacuum_lost: [
    { ...WHEN, fromPa: 60.5, toPa: 12_345 },
    { ...WHEN, fromPa: 60.5, toPa: null },
  ],
  sensor_battery: [{ ...WHEN, sensor: SENSOR, percent: 12 }],
  sensor_lost: [{ ...WHEN, sensor: SENSOR }],
  sensor_back: [{ ...WHEN, sensor: SENSOR }],
  bridge_lost: [WHEN],
  bridge_back: [WHEN],
  device_battery: [{ ...WHEN, percent: 9 }],
};

export const ALERT_KINDS = Object.keys(FACTS).sort();

/** As a browser remembers them; they stand one behind the other, the latest in front. */
function everyAlert(): Omit<LoggedAlert, 'fact'>[] {
  return Object.entries(FACTS)
    .flatMap(([kind, ofKind]) => ofKind.map((fact) => ({ kind, ...fact })))
    .map((fact, at) => ({
      number: at + 1,
      fact,
      // Of sensors that nobody hears: no conclusion can say that it is no longer so.
      channel: at + 10,
      atMs: 0,
      early: true,
      state: 'open',
      seenMs: null,
      unheard: false,
    }));
}

/** A script for a page that is to open with all of them still to be seen. */
export function rememberingEveryAlert({ id, startedAtMs }: Recording): string {
  const log = JSON.stringify(JSON.stringify(everyAlert()));
  return `localStorage.setItem('ebbline.alert-log.${startedAtMs}.${id}', ${log});`;
}

export interface ShownAlert {
  readonly kind: string;
  readonly title: string;
}

/** Presses each of them away, once it was looked at. That it was seen stays with this page. */
export async function lookAtEachAlert(
  page: Page,
  look: (alert: ShownAlert) => Promise<void>,
): Promise<void> {
  await page.route(/\/seen-alerts$/u, (route) => route.abort());
  const banner = page.getByTestId('alert');
  await banner.waitFor();
  while ((await banner.count()) > 0) {
    const kind = (await banner.getAttribute('data-kind')) ?? '';
    await look({ kind, title: await page.getByTestId('alert-title').innerText() });
    await page.getByTestId('seen').click();
  }
}
