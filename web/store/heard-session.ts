/** Of which session the alerts are heard: the one that is shown, or one aside. */
import { computed, effect, type ReadonlySignal, signal, untracked } from '@preact/signals';
import type { Recording } from '../../protocol/recording.ts';
import { isRunning } from './choose-recording.ts';
import type { Session } from './session.ts';

/** A session that nobody sees, with a connection of its own. */
export interface Aside {
  readonly session: Session;
  readonly end: () => void;
}

/**
 * Whoever looks at an old recording while another one runs is called by that one's alerts all the same: it
 * is followed aside for so long.
 * @param beginAside follows the recording that is to be heard
 * @returns null for the moment before there is one aside
 */
export function heardSession(
  shown: Session,
  beginAside: (recording: Recording) => Aside,
): ReadonlySignal<Session | null> {
  const aside = signal<Aside | null>(null);
  /** What ran when it was last looked at, so that looking elsewhere changes nothing about who calls. */
  let lastRunningId: number | null = null;
  const running = computed(() => shown.recordings.value.filter(isRunning));
  const isAside = computed(() => {
    const recording = shown.recording.value;
    return recording !== null && !isRunning(recording) && running.value.length > 0;
  });
  effect(() => {
    const recording = shown.recording.value;
    if (recording !== null && isRunning(recording)) lastRunningId = recording.id;
  });
  effect(() => {
    if (!isAside.value) return undefined;
    const candidates = running.peek();
    const heard = candidates.find(({ id }) => id === lastRunningId) ?? candidates.at(-1);
    if (heard === undefined) return undefined;
    // What goes on in it is no reason to begin another one.
    const begun = untracked(() => beginAside(heard));
    aside.value = begun;
    return () => {
      aside.value = null;
      begun.end();
    };
  });
  return computed(() => (isAside.value ? (aside.value?.session ?? null) : shown));
}
