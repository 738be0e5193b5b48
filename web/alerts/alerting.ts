/** Watches what alerts follow from, and announces those that are due. */
import { computed, effect, signal } from '@preact/signals';
import { z } from 'zod';
import type { Recording } from '../../protocol/recording.ts';
import { JUDGING_GRID_S } from '../analysis/judging-grid.ts';
import type { ConnectionState } from '../connection/connection-core.ts';
import { isRunning } from '../store/choose-recording.ts';
import { recall, remember } from '../store/remembered.ts';
import type { Session } from '../store/session.ts';
import { AlertBook } from './alert-book.ts';
import { deviceBattery, watchDeviceBattery } from './device-battery.ts';
import { dueAlerts } from './due-alerts.ts';
import { dueBattery } from './due-batteries.ts';
import { dueSilence, NO_SILENCE } from './due-silence.ts';
import { type GivenAlerts, givenAlertsSchema, NO_ALERTS_GIVEN } from './given-alerts.ts';
import { showWaiting } from './page-title.ts';
import { startRepeating } from './repeating.ts';
import { SensorWatch } from './sensor-watch.ts';

const TICK_MS = 1000;

/** As this browser remembers it of a recording: its sensors' batteries, and this device's own. */
const saidSchema = z.array(z.string());

export function startAlerting(session: Session): AlertBook {
  const book = new AlertBook(session);
  const own = document.title;
  const tick = signal(0);
  window.setInterval(() => (tick.value = performance.now()), TICK_MS);
  void watchDeviceBattery();
  startRepeating(book);

  const shown = computed(() => session.recording.value);
  effect(() => {
    const recording = shown.value;
    if (recording !== null) book.turnTo(bookOf(recording), isRunning(recording));
  });
  effect(() => {
    const latest = book.open.value.at(-1);
    showWaiting(document, own, latest === undefined ? null : book.words(latest.fact).title);
  });
  effect(() => {
    if (session.followed.value !== null) book.takeSeen();
  });
  effect(() => {
    if (session.phase.value === 'live') void book.tellWhatIsUntold();
  });
  watchConclusions(session, book);
  const sensors = new SensorWatch(session, book);
  effect(() => sensors.look(tick.value));
  let silence = NO_SILENCE;
  effect(() => {
    const recording = shown.value;
    if (recording === null || !isRunning(recording)) return;
    const found = dueSilence(bridgeAsSource(session.phase.value), tick.value, 1, silence);
    silence = found.silence;
    if (found.due === null) return;
    const atS = session.followed.peek()?.latest.peek()?.elapsedS ?? 0;
    const kind = found.due === 'lost' ? 'bridge_lost' : 'bridge_back';
    book.announce([{ kind, atS, sinceS: atS }], 0, false);
  });
  effect(() => {
    const battery = deviceBattery.value;
    const recording = shown.value;
    if (battery === null || recording === null || !isRunning(recording)) return;
    const key = `device-said.${bookOf(recording).key}`;
    const before = recall(key, saidSchema, []);
    const atS = session.followed.peek()?.latest.peek()?.elapsedS ?? 0;
    const { due, said } = dueBattery(
      {
        of: 'device',
        percent: battery.charging ? null : battery.percent,
        fact: (percent) => ({ kind: 'device_battery', percent, atS, sinceS: atS }),
      },
      before,
    );
    if (said !== before) remember(key, said);
    book.announce(due, 0, false);
    if (battery.charging) book.noLonger(0, ['device']);
  });
  return book;
}

function watchConclusions(session: Session, book: AlertBook): void {
  /** Kept here, too: another page of the same browser must not take an alert from this one. */
  const known = new Map<string, GivenAlerts>();
  effect(() => {
    const followed = session.followed.value;
    const recording = session.recording.value;
    const conclusions = followed?.conclusions.value ?? null;
    // What happened in a recording that is over is no news.
    if (followed === null || conclusions === null || recording === null) return;
    if (!isRunning(recording)) return;
    if (session.phase.value !== 'live') return;
    // Another sensor is judged for itself. Its number changes before its conclusions are there.
    const channel = followed.channel.peek();
    const ofRecording = `alerts.${bookOf(recording).key}`;
    const key = `${ofRecording}${channel === 0 ? '' : `.${channel}`}`;
    const before = known.get(key);
    const opening = before === undefined;
    // Drawn in the middle of catching up: what comes of the rest has happened as well.
    const latestS = followed.readings.latest()?.elapsedS ?? 0;
    if (opening && conclusions.nowS < latestS - JUDGING_GRID_S) return;
    const remembered = before ?? recall(key, givenAlertsSchema, NO_ALERTS_GIVEN);
    const { due, given, over } = dueAlerts(
      {
        conclusions,
        sheet: followed.sheet.value,
        marks: followed.marks.value,
        lossAfter: (isolatedS, judgedS) => followed.vacuumLoss(isolatedS, judgedS),
        opening,
      },
      remembered,
    );
    known.set(key, given);
    if (given !== remembered) remember(key, given);
    book.noLonger(channel, over);
    book.announce(due, channel, opening);
  });
}

/** The bridge falls silent as a sensor does. */
function bridgeAsSource(phase: ConnectionState['phase']): 'live' | 'lost' | 'starting' {
  if (phase === 'connecting') return 'starting';
  return phase === 'lost' ? 'lost' : 'live';
}

function bookOf({ id, startedAtMs, origin }: Recording) {
  return { recordingId: id, key: `${startedAtMs}.${id}`, rehearsal: origin === 'rehearsal' };
}
