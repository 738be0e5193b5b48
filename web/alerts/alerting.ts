/** Watches what the alerts of one recording follow from, and announces those that are due. */
import { computed, effect, type ReadonlySignal } from '@preact/signals';
import { z } from 'zod';
import type { Recording } from '../../protocol/recording.ts';
import { JUDGING_GRID_S } from '../analysis/readings/judging-grid.ts';
import type { ConnectionState } from '../connection/connection-core.ts';
import { isRunning } from '../store/choose-recording.ts';
import { recall, remember } from '../store/remembered.ts';
import type { AlertBook } from './alert-book.ts';
import { deviceBattery } from './device-battery.ts';
import { dueAlerts } from './due-alerts.ts';
import { dueBattery } from './due-batteries.ts';
import { dueSilence, NO_SILENCE } from './due-silence.ts';
import { type GivenAlerts, givenAlertsSchema, NO_ALERTS_GIVEN } from './given-alerts.ts';
import { SensorWatch } from './sensor-watch.ts';
import { soleCaller } from './sole-caller.ts';

/** As this browser remembers it of a recording: its sensors' batteries, and this device's own. */
const saidSchema = z.array(z.string());

interface Watched {
  readonly book: AlertBook;
  readonly recording: ReadonlySignal<Recording | null>;
  /** This page's own clock, ms. */
  readonly tick: ReadonlySignal<number>;
  /** Whether what concerns this window as a whole, bridge and battery, stands in this book. */
  readonly isFirst: ReadonlySignal<boolean>;
}

export interface Alerting {
  /** Whether this window calls out. */
  readonly calls: ReadonlySignal<boolean>;
  readonly end: () => void;
}

export function startAlerting(watched: Watched): Alerting {
  const { book, recording, tick, isFirst } = watched;
  const runs = computed(() => recording.value !== null && isRunning(recording.value));
  const { calls, end } = soleCaller(computed(() => (runs.value ? book.key : null)));
  const sensors = new SensorWatch(book);
  const ends = [
    end,
    effect(() => {
      if (runs.value) book.isNews.value = true;
    }),
    effect(() => book.takeSeen()),
    watchConclusions(book, runs),
    effect(() => sensors.look(tick.value, calls.value)),
    watchBridge(watched, runs, calls),
    effect(() => {
      if (runs.value && calls.value && isFirst.value) lookAtDevice(book);
    }),
  ];
  return { calls, end: () => ends.forEach((one) => one()) };
}

/** Each sensor is judged for itself, and called out by whichever window watches it. */
function watchConclusions(book: AlertBook, runs: ReadonlySignal<boolean>): () => void {
  const followed = computed(() => book.session.value?.followed.value ?? null);
  const channel = computed(() => followed.value?.channel.value ?? null);
  const role = computed(() =>
    runs.value && channel.value !== null ? `${book.key}/${channel.value}` : null,
  );
  const { calls, end } = soleCaller(role);
  /** What was called out, by sensor, as long as nobody else calls. */
  const given = new Map<string, GivenAlerts>();
  /** Sensors that this page has caught up with once: what comes then is news to it. */
  const met = new Set<string>();
  const ends = [
    end,
    effect(() => {
      if (!calls.value) given.clear();
    }),
    effect(() => {
      const session = book.session.value;
      const here = followed.value;
      const conclusions = here?.conclusions.value ?? null;
      // What happened in a recording that is over is no news.
      if (here === null || conclusions === null || !runs.value) return;
      if (session?.phase.value !== 'live') return;
      // Another sensor's number changes before its conclusions are there.
      const at = here.channel.peek();
      const key = `alerts.${book.key}${at === 0 ? '' : `.${at}`}`;
      // Drawn in the middle of catching up: what comes of the rest has happened as well.
      const latestS = here.readings.latest()?.elapsedS ?? 0;
      if (conclusions.nowS < latestS - JUDGING_GRID_S) return;
      const opening = !met.has(key);
      met.add(key);
      if (!calls.value) return;
      const before = given.get(key) ?? recall(key, givenAlertsSchema, NO_ALERTS_GIVEN);
      const found = dueAlerts(
        {
          conclusions,
          sheet: here.sheet.value,
          marks: here.marks.value,
          lossAfter: (isolatedS, judgedS) => here.vacuumLoss(isolatedS, judgedS),
          opening,
        },
        before,
      );
      given.set(key, found.given);
      if (found.given !== before) remember(key, found.given);
      book.noLonger(at, found.over);
      book.announce(found.due, at, opening);
    }),
  ];
  return () => ends.forEach((one) => one());
}

/** The bridge falls silent as a sensor does. */
function watchBridge(
  { book, tick, isFirst }: Watched,
  runs: ReadonlySignal<boolean>,
  calls: ReadonlySignal<boolean>,
): () => void {
  let silence = NO_SILENCE;
  return effect(() => {
    const phase = book.session.value?.phase.value ?? 'connecting';
    if (!runs.value || !isFirst.value) return;
    const found = dueSilence(bridgeAsSource(phase), tick.value, 1, silence);
    silence = found.silence;
    if (found.due === null || !calls.value) return;
    const atS = latestOf(book);
    const kind = found.due === 'lost' ? 'bridge_lost' : 'bridge_back';
    book.announce([{ kind, atS, sinceS: atS }], 0, false);
  });
}

function bridgeAsSource(phase: ConnectionState['phase']): 'live' | 'lost' | 'starting' {
  if (phase === 'connecting') return 'starting';
  return phase === 'lost' ? 'lost' : 'live';
}

function lookAtDevice(book: AlertBook): void {
  const battery = deviceBattery.value;
  if (battery === null) return;
  const saidKey = `device-said.${book.key}`;
  const before = recall(saidKey, saidSchema, []);
  const atS = latestOf(book);
  const { due, said } = dueBattery(
    {
      of: 'device',
      percent: battery.charging ? null : battery.percent,
      fact: (percent) => ({ kind: 'device_battery', percent, atS, sinceS: atS }),
    },
    before,
  );
  if (said !== before) remember(saidKey, said);
  book.announce(due, 0, false);
  if (battery.charging) book.noLonger(0, ['device']);
}

function latestOf(book: AlertBook): number {
  return book.session.peek()?.followed.peek()?.latest.peek()?.elapsedS ?? 0;
}
