/** Rings again until what was called out has been seen, where somebody wants that. */
import { computed, effect } from '@preact/signals';
import { alertChoices } from './alert-choices.ts';
import type { AlertBook } from './alert-book.ts';
import { ring } from './call-out.ts';

/** Time to put down what one has in hand. A setting of ours; the words of the choice say it. */
const EVERY_MS = 15_000;

export function startRepeating(book: AlertBook): void {
  const wanted = computed(
    () => alertChoices.value.repeat === 'until_seen' && book.open.value.some(({ early }) => !early),
  );
  effect(() => {
    if (!wanted.value) return undefined;
    const timer = window.setInterval(() => void ring(), EVERY_MS);
    return () => window.clearInterval(timer);
  });
}
