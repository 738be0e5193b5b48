/**
 * Of several windows of one browser one calls out, or each alert would ring in all of them at once and each
 * would write its own list over the others'. It is the one whose sound was allowed last, else the first.
 */
import { effect, type ReadonlySignal, signal } from '@preact/signals';
import { z } from 'zod';
import { onRememberedElsewhere, recall, remember } from '../store/remembered.ts';
import { CallersRole } from './callers-role.ts';
import { soundState } from './chime.ts';

/** A window that has the role and may not sound tells the others of it, here. */
const MUTE_KEY = 'mute-caller';
const muteSchema = z.object({ role: z.string(), atMs: z.number() }).nullable();

export interface SoleCaller {
  /** Whether this window calls out. */
  readonly calls: ReadonlySignal<boolean>;
  readonly end: () => void;
}

/** @param of what is called out, by a name of its own; null: nothing is now */
export function soleCaller(of: ReadonlySignal<string | null>): SoleCaller {
  const calls = signal(false);
  let role: CallersRole | null = null;
  const takeIt = () => {
    if (soundState.peek() === 'ready' && !calls.peek()) role?.take();
  };
  const ends = [
    effect(() => {
      if (of.value === null) return undefined;
      const mine = new CallersRole(`ebbline.calls.${of.value}`, (held) => (calls.value = held));
      role = mine;
      return () => {
        mine.leave();
        role = null;
      };
    }),
    effect(() => {
      if (soundState.value === 'ready' && of.value !== null) takeIt();
    }),
    effect(() => {
      if (!calls.value || soundState.value !== 'blocked') return;
      remember(MUTE_KEY, { role: of.peek(), atMs: Date.now() });
    }),
    onRememberedElsewhere((key) => {
      if (key === MUTE_KEY && recall(MUTE_KEY, muteSchema, null)?.role === of.peek()) takeIt();
    }),
  ];
  return { calls, end: () => ends.forEach((end) => end()) };
}
