/** Calls an alert out beyond the page: sound, vibration, speech, system notification. */
import type { AlertWords } from '../words/say-alert.ts';
import { alertChoices } from './alert-choices.ts';
import { chime } from './chime.ts';

/** Long, long, longer, ms: told from a message's by being long. A setting of ours. */
const BUZZ_MS = [400, 150, 400, 150, 800];

/** Notifications that stand, by alert. */
const shown = new Map<string, Notification>();

interface Call {
  readonly key: string;
  readonly words: AlertWords;
}

/**
 * Several that come at once ring once.
 * @returns whether it could be heard; true also where nobody wants sound
 */
export async function callOut(calls: readonly Call[]): Promise<boolean> {
  for (const { key, words } of calls) notify(key, words);
  if (alertChoices.peek().spoken) speak(calls.map(({ words }) => words));
  return ring();
}

/** Sound and vibration alone, as when it is repeated. */
export function ring(): Promise<boolean> {
  const { sound, volume, vibrate } = alertChoices.peek();
  if (vibrate) buzz();
  return sound === 'off' ? Promise.resolve(true) : chime(sound, volume);
}

/** Somebody has seen it: what says it elsewhere goes too. */
export function callBack(key: string): void {
  shown.get(key)?.close();
  shown.delete(key);
}

export function buzz(): void {
  // Not there in every browser, whatever its types say; without a first touch it does nothing.
  if ('vibrate' in navigator) navigator.vibrate(BUZZ_MS);
}

/** In the page's language. What was being said is older. */
export function speak(said: readonly Pick<AlertWords, 'title' | 'detail'>[]): void {
  if (!('speechSynthesis' in window)) return;
  window.speechSynthesis.cancel();
  for (const { title, detail } of said) {
    const utterance = new SpeechSynthesisUtterance(`${title}. ${detail}`);
    utterance.lang = document.documentElement.lang;
    window.speechSynthesis.speak(utterance);
  }
}

function notify(key: string, { title, detail }: AlertWords): void {
  if (!('Notification' in window) || Notification.permission !== 'granted') return;
  try {
    const notification = new Notification(title, { body: detail, tag: key });
    notification.onclick = () => window.focus();
    shown.set(key, notification);
  } catch {
    // Some phones have the constructor and refuse to use it: banner and sound remain.
  }
}
