/** What a person chose for this browser: language, units, look and paper. */
import { effect, signal } from '@preact/signals';
import { z } from 'zod';
import { PAPERS } from '../../protocol/api.ts';
import { LANGUAGES } from '../../protocol/languages.ts';
import { PRESSURE_UNITS, TEMPERATURE_UNITS } from '../../protocol/units.ts';
import { recall, remember } from './remembered.ts';

export const LOOKS = ['system', 'day', 'night', 'sun'] as const;

export const LANGUAGE_CHOICES = ['system', ...LANGUAGES] as const;
export const PAPER_CHOICES = ['system', ...PAPERS] as const;

const choicesSchema = z.object({
  // Pages before there was a choice remembered none.
  language: z.enum(LANGUAGE_CHOICES).default('system'),
  paper: z.enum(PAPER_CHOICES).default('system'),
  pressure: z.enum(PRESSURE_UNITS),
  temperature: z.enum(TEMPERATURE_UNITS),
  look: z.enum(LOOKS),
});
export type Choices = z.infer<typeof choicesSchema>;

const DEFAULT: Choices = {
  language: 'system',
  paper: 'system',
  pressure: 'micron',
  temperature: '°C',
  look: 'system',
};

export const choices = signal(recall('choices', choicesSchema, DEFAULT));

export function choose(change: Partial<Choices>): void {
  choices.value = { ...choices.value, ...change };
  remember('choices', choices.value);
}

/** The look that is shown: the chosen one, or the system's. */
export const look = signal<'day' | 'night' | 'sun'>('day');

/**
 * Keeps the page's look as chosen, and as the system's where that was chosen: dark there is night, and
 * more contrast than usual is full sun.
 */
export function followLook(root: HTMLElement): void {
  const systemLook = signal<'day' | 'night' | 'sun'>('day');
  const dark = window.matchMedia('(prefers-color-scheme: dark)');
  const contrast = window.matchMedia('(prefers-contrast: more)');
  const ask = () => {
    systemLook.value = dark.matches ? 'night' : contrast.matches ? 'sun' : 'day';
  };
  ask();
  for (const query of [dark, contrast]) query.addEventListener('change', ask);
  effect(() => {
    const chosen = choices.value.look;
    look.value = chosen === 'system' ? systemLook.value : chosen;
    root.dataset['look'] = look.value;
    // The window's frame, where the page is installed, takes the colour of the paper.
    const frame = document.querySelector('meta[name=theme-color]');
    frame?.setAttribute('content', getComputedStyle(root).getPropertyValue('--paper').trim());
  });
}
