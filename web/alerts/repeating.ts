/** Rings again until what was called out has been seen, where somebody wants that. */
import { computed, effect, type ReadonlySignal } from '@preact/signals';
import { every } from '../connection/steady-timer.ts';
import { alertChoices } from './alert-choices.ts';
import type { AlertBook } from './alert-book.ts';
import { ring } from './call-out.ts';

/** Time to put down what one has in hand. A setting of ours; the words of the choice say it. */
const EVERY_MS = 15_000;

/** @param calls whether this window calls out */
export function startRepeating(book: AlertBook, calls: ReadonlySignal<boolean>): void {
  const wanted = computed(
    () =>
      calls.value &&
      alertChoices.value.repeat === 'until_seen' &&
      book.open.value.some(({ early }) => !early),
  );
  effect(() => {
    if (!wanted.value) return undefined;
    return every(EVERY_MS, () => void ring());
  });
}
