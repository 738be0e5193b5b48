/** How a person wants to be reached, in this browser. */
import { signal } from '@preact/signals';
import { z } from 'zod';
import { onRememberedElsewhere, recall, remember } from '../store/remembered.ts';
import { SOUND_NAMES } from './sounds.ts';

export const REPEATS = ['once', 'until_seen'] as const;
export const SOUND_CHOICES = ['off', ...SOUND_NAMES] as const;

const alertChoicesSchema = z.object({
  sound: z.enum(SOUND_CHOICES),
  /** From 0 to 1, as on the slider. */
  volume: z.number().min(0).max(1),
  repeat: z.enum(REPEATS),
  vibrate: z.boolean(),
  spoken: z.boolean(),
});
export type AlertChoices = z.infer<typeof alertChoicesSchema>;

const KEY = 'alert-choices';

/** Loud, since it has to carry; and once, since a bell that nobody can stop is switched off for good. */
const DEFAULT: AlertChoices = {
  sound: soundWasOff() ? 'off' : 'bell_buoy',
  volume: 0.8,
  repeat: 'once',
  vibrate: true,
  spoken: false,
};

export const alertChoices = signal(recall(KEY, alertChoicesSchema, DEFAULT));

/** What is chosen in one window holds for the one that calls out. */
onRememberedElsewhere((key) => {
  if (key === KEY) alertChoices.value = recall(KEY, alertChoicesSchema, alertChoices.peek());
});

export function chooseAlerts(change: Partial<AlertChoices>): void {
  alertChoices.value = { ...alertChoices.value, ...change };
  remember(KEY, alertChoices.value);
}

/** As it was chosen when there was one sound, on or off. */
function soundWasOff(): boolean {
  const earlier = z.object({ sound: z.boolean() });
  return !recall('choices', earlier, { sound: true }).sound;
}
