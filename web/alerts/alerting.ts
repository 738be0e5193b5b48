/** Gives the alerts that are due: banner, title, sound and system notification. */
import { effect, signal } from '@preact/signals';
import { choices } from '../store/choices.ts';
import { isRunning } from '../store/choose-recording.ts';
import { recall, remember } from '../store/remembered.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { type AlertWords, sayAlert } from '../words/say-alert.ts';
import { chime } from './chime.ts';
import { dueAlerts } from './due-alerts.ts';
import { givenAlertsSchema, NO_ALERTS_GIVEN } from './given-alerts.ts';

export interface GivenAlert extends AlertWords {
  readonly key: string;
  /** An alert about the same takes the place of this one: a withdrawn verdict must not come back. */
  readonly about: string;
  /** What it was announced of. */
  readonly recording: string;
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
    // Another sensor is judged for itself. Its number changes before its conclusions are there.
    const channel = followed.channel.peek();
    const ofRecording = `alerts.${recording.startedAtMs}.${recording.id}`;
    forgetOthers(ofRecording);
    const key = `${ofRecording}${channel === 0 ? '' : `.${channel}`}`;
    const before = recall(key, givenAlertsSchema, NO_ALERTS_GIVEN);
    const { due, given } = dueAlerts(conclusions, followed.sheet.value, before);
    if (given !== before) remember(key, given);
    const rehearsal = recording.origin === 'rehearsal';
    for (const fact of due) {
      const words = sayAlert(fact, rehearsal, speech.value);
      const about = `${key}.${fact.kind === 'target' ? 'target' : 'verdict'}`;
      void announce({
        ...words,
        about,
        recording: ofRecording,
        key: `${about}.${fact.atS}`,
        unheard: false,
      });
    }
  });
}

/** A verdict on another system must not stand over this one. */
function forgetOthers(recording: string): void {
  const kept = openAlerts.peek().filter((open) => open.recording === recording);
  if (kept.length < openAlerts.peek().length) openAlerts.value = kept;
}

async function announce(alert: GivenAlert): Promise<void> {
  const others = openAlerts.peek().filter((open) => open.about !== alert.about);
  openAlerts.value = [...others, alert];
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
