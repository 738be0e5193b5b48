/** Watches what alerts follow from, and announces those that are due. */
import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import { z } from 'zod';
import { JUDGING_GRID_S } from '../analysis/judging-grid.ts';
import type { ConnectionState } from '../connection/connection-core.ts';
import { every } from '../connection/steady-timer.ts';
import { isRunning } from '../store/choose-recording.ts';
import { recall, remember } from '../store/remembered.ts';
import type { Session } from '../store/session.ts';
import { AlertBook, bookKey } from './alert-book.ts';
import { deviceBattery, watchDeviceBattery } from './device-battery.ts';
import { dueAlerts } from './due-alerts.ts';
import { dueBattery } from './due-batteries.ts';
import { dueSilence, NO_SILENCE } from './due-silence.ts';
import { type GivenAlerts, givenAlertsSchema, NO_ALERTS_GIVEN } from './given-alerts.ts';
import { showWaiting } from './page-title.ts';
import { startRepeating } from './repeating.ts';
import { SensorWatch } from './sensor-watch.ts';
import { soleCaller } from './sole-caller.ts';

const TICK_MS = 1000;

/** As this browser remembers it of a recording: its sensors' batteries, and this device's own. */
const saidSchema = z.array(z.string());

/** @param heard of which session: null for a moment while another one is turned to */
export function startAlerting(heard: ReadonlySignal<Session | null>): AlertBook {
  const book = new AlertBook(heard);
  const own = document.title;
  const tick = signal(0);
  every(TICK_MS, () => (tick.value = performance.now()));
  void watchDeviceBattery();

  const recording = computed(() => heard.value?.recording.value ?? null);
  const phase = computed(() => heard.value?.phase.value ?? 'connecting');
  const key = computed(() => (recording.value === null ? null : bookKey(recording.value)));
  const calls = soleCaller(key);
  startRepeating(book, calls);
  effect(() => {
    if (recording.value !== null) book.turnTo(recording.value);
  });
  effect(() => {
    const latest = book.open.value.at(-1);
    showWaiting(document, own, latest === undefined ? null : book.words(latest.fact).title);
  });
  effect(() => book.takeSeen());
  effect(() => {
    if (phase.value === 'live') book.tellWhatIsUntold();
  });
  watchConclusions(book, calls);
  const sensors = new SensorWatch(book);
  effect(() => sensors.look(tick.value, calls.value));
  let silence = NO_SILENCE;
  effect(() => {
    if (recording.value === null || !isRunning(recording.value)) return;
    const found = dueSilence(bridgeAsSource(phase.value), tick.value, 1, silence);
    silence = found.silence;
    if (found.due === null || !calls.value) return;
    const atS = heard.peek()?.followed.peek()?.latest.peek()?.elapsedS ?? 0;
    const kind = found.due === 'lost' ? 'bridge_lost' : 'bridge_back';
    book.announce([{ kind, atS, sinceS: atS }], 0, false);
  });
  effect(() => {
    const battery = deviceBattery.value;
    if (battery === null || recording.value === null || !isRunning(recording.value)) return;
    if (!calls.value) return;
    const saidKey = `device-said.${bookKey(recording.value)}`;
    const before = recall(saidKey, saidSchema, []);
    const atS = heard.peek()?.followed.peek()?.latest.peek()?.elapsedS ?? 0;
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
  });
  return book;
}

/** @param calls whether this window calls out, or another one of this browser */
function watchConclusions(book: AlertBook, calls: ReadonlySignal<boolean>): void {
  /** What was called out, by recording and sensor, as long as nobody else calls. */
  const given = new Map<string, GivenAlerts>();
  /** Recordings and sensors that this page has caught up with once: what comes then is news to it. */
  const met = new Set<string>();
  effect(() => {
    if (!calls.value) given.clear();
  });
  effect(() => {
    const session = book.heard.value;
    const followed = session?.followed.value ?? null;
    const recording = session?.recording.value ?? null;
    const conclusions = followed?.conclusions.value ?? null;
    // What happened in a recording that is over is no news.
    if (followed === null || conclusions === null || recording === null) return;
    if (!isRunning(recording)) return;
    if (session?.phase.value !== 'live') return;
    // Another sensor is judged for itself. Its number changes before its conclusions are there.
    const channel = followed.channel.peek();
    const ofRecording = `alerts.${bookKey(recording)}`;
    const key = `${ofRecording}${channel === 0 ? '' : `.${channel}`}`;
    // Drawn in the middle of catching up: what comes of the rest has happened as well.
    const latestS = followed.readings.latest()?.elapsedS ?? 0;
    if (conclusions.nowS < latestS - JUDGING_GRID_S) return;
    const opening = !met.has(key);
    if (!calls.value) {
      met.add(key);
      return;
    }
    const before = given.get(key) ?? recall(key, givenAlertsSchema, NO_ALERTS_GIVEN);
    const found = dueAlerts(
      {
        conclusions,
        sheet: followed.sheet.value,
        marks: followed.marks.value,
        lossAfter: (isolatedS, judgedS) => followed.vacuumLoss(isolatedS, judgedS),
        opening,
      },
      before,
    );
    met.add(key);
    given.set(key, found.given);
    if (found.given !== before) remember(key, found.given);
    book.noLonger(channel, found.over);
    book.announce(found.due, channel, opening);
  });
}

/** The bridge falls silent as a sensor does. */
function bridgeAsSource(phase: ConnectionState['phase']): 'live' | 'lost' | 'starting' {
  if (phase === 'connecting') return 'starting';
  return phase === 'lost' ? 'lost' : 'live';
}
