/** Gives the alerts that are due: banner, title, sound and system notification. */
import { effect, signal } from '@preact/signals';
import { choices } from '../store/choices.ts';
import { isRunning } from '../store/choose-recording.ts';
import { recall, remember } from '../store/remembered.ts';
import type { Session } from '../store/session.ts';
import { type AlertWords, sayAlert } from '../words/say-alert.ts';
import { chime } from './chime.ts';
import { dueAlerts, givenAlertsSchema, NO_ALERTS_GIVEN } from './due-alerts.ts';

export interface GivenAlert extends AlertWords {
  readonly key: string;
  readonly unheard: boolean;
}

/** What has been announced and not yet been seen. */
export const openAlerts = signal<readonly GivenAlert[]>([]);

export function seen(key: string): void {
  openAlerts.value = openAlerts.value.filter((alert) => alert.key !== key);
}

export function startAlerting(session: Session): void {
  const title = document.title;
  effect(() => {
    const latest = openAlerts.value.at(-1);
    document.title = latest === undefined ? title : `● ${latest.title}`;
  });
  effect(() => {
    const followed = session.followed.value;
    const recording = session.recording.value;
    const conclusions = followed?.conclusions.value ?? null;
    // What happened in a recording that is over is no news.
    if (followed === null || conclusions === null || recording === null) return;
    if (!isRunning(recording)) return;
    if (session.connection.value.phase !== 'live') return;
    const key = `alerts.${recording.startedAtMs}.${recording.id}`;
    const before = recall(key, givenAlertsSchema, NO_ALERTS_GIVEN);
    const { due, given } = dueAlerts(conclusions, followed.sheet.value, before);
    if (due.length === 0) return;
    remember(key, given);
    const rehearsal = recording.origin === 'rehearsal';
    for (const fact of due) {
      const words = sayAlert(fact, choices.value.pressure, rehearsal);
      void announce({ ...words, key: `${key}.${fact.kind}.${fact.atS}`, unheard: false });
    }
  });
}

async function announce(alert: GivenAlert): Promise<void> {
  openAlerts.value = [...openAlerts.peek(), alert];
  notify(alert);
  if (!choices.peek().sound || (await chime())) return;
  openAlerts.value = openAlerts
    .peek()
    .map((open) => (open.key === alert.key ? { ...open, unheard: true } : open));
}

function notify(alert: GivenAlert): void {
  if (!('Notification' in window) || Notification.permission !== 'granted') return;
  try {
    new Notification(alert.title, { body: alert.detail, tag: alert.key });
  } catch {
    // Some phones have the constructor and refuse to use it: banner and sound remain.
  }
}
