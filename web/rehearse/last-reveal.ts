/** What was revealed of the last rehearsal, until the next one begins or it is put away. */
import { signal } from '@preact/signals';
import type { Reveal } from '../../protocol/api.ts';

export const lastReveal = signal<Reveal | null>(null);
