/** What a person chose for this browser: units, look and sound. */
import { effect, signal } from '@preact/signals';
import { z } from 'zod';
import { PRESSURE_UNITS, TEMPERATURE_UNITS } from '../../protocol/units.ts';
import { recall, remember } from './remembered.ts';

export const LOOKS = ['system', 'day', 'night', 'sun'] as const;

const choicesSchema = z.object({
  pressure: z.enum(PRESSURE_UNITS),
  temperature: z.enum(TEMPERATURE_UNITS),
  look: z.enum(LOOKS),
  sound: z.boolean(),
});
export type Choices = z.infer<typeof choicesSchema>;

const DEFAULT: Choices = { pressure: 'micron', temperature: '°C', look: 'system', sound: true };

export const choices = signal(recall('choices', choicesSchema, DEFAULT));

export function choose(change: Partial<Choices>): void {
  choices.value = { ...choices.value, ...change };
  remember('choices', choices.value);
}

/** Keeps the page's look as chosen, and as the system's where that was chosen. */
export function followLook(root: HTMLElement): void {
  const dark = window.matchMedia('(prefers-color-scheme: dark)');
  const systemDark = signal(dark.matches);
  dark.addEventListener('change', () => (systemDark.value = dark.matches));
  effect(() => {
    const { look } = choices.value;
    root.dataset['look'] = look === 'system' ? (systemDark.value ? 'night' : 'day') : look;
  });
}
