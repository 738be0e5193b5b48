/** Rings again until what was called out has been seen, where somebody wants that. */
import { computed, effect, type ReadonlySignal } from '@preact/signals';
import { every } from '../connection/steady-timer.ts';
import { alertChoices } from './alert-choices.ts';
import { ring } from './call-out.ts';
import type { OpenAlert } from './heard-recording.ts';

/** Time to put down what one has in hand. A setting of ours; the words of the choice say it. */
const EVERY_MS = 15_000;

export function startRepeating(open: ReadonlySignal<readonly OpenAlert[]>): void {
  const wanted = computed(
    () =>
      alertChoices.value.repeat === 'until_seen' &&
      open.value.some(({ of, alert }) => of.calls.value && !alert.early),
  );
  effect(() => {
    if (!wanted.value) return undefined;
    return every(EVERY_MS, () => void ring());
  });
}
