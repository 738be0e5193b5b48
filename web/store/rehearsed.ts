/** The latest rehearsal of this browser: how it was begun, what was called, what was revealed. */
import { signal } from '@preact/signals';
import { z } from 'zod';
import { callSchema, revealSchema, startRehearsalSchema } from '../../protocol/api.ts';
import type { Recording } from '../../protocol/recording.ts';
import { recall, remember } from './remembered.ts';

const rehearsedSchema = z.object({
  recordingId: z.int(),
  /** Tells it from a recording of the same number in another data folder. */
  startedAtMs: z.int(),
  /** Null where another page began it. */
  wish: startRehearsalSchema.nullable(),
  call: callSchema.nullable(),
  reveal: revealSchema.nullable(),
});
export type Rehearsed = z.infer<typeof rehearsedSchema>;

const KEY = 'rehearsed';
const latest = signal(recall(KEY, rehearsedSchema.nullable(), null));

/** What is known of this rehearsal; of one that began elsewhere nothing is. */
export function rehearsedOf({ id, startedAtMs }: Recording): Rehearsed {
  const known = latest.value;
  if (known !== null && known.recordingId === id && known.startedAtMs === startedAtMs) return known;
  return { recordingId: id, startedAtMs, wish: null, call: null, reveal: null };
}

export function keepRehearsed(
  recording: Recording,
  change: Partial<Pick<Rehearsed, 'wish' | 'call' | 'reveal'>>,
): void {
  latest.value = { ...rehearsedOf(recording), ...change };
  remember(KEY, latest.value);
}

const TRAINEE_KEY = 'trainee';

/** Who rehearses at this computer, so far; empty before the first. */
export const trainee = signal(recall(TRAINEE_KEY, z.string(), ''));

export function rememberTrainee(name: string): void {
  trainee.value = name.trim();
  remember(TRAINEE_KEY, trainee.value);
}

/** The bridge keeps the latest rehearsal alone: only that one can be worked, called and revealed. */
export function isLatestRehearsal(recording: Recording, recordings: readonly Recording[]): boolean {
  return (
    recording.origin === 'rehearsal' &&
    recordings.every(({ id, origin }) => origin !== 'rehearsal' || id <= recording.id)
  );
}
