/** Which recording a page shows by itself: pure. */
import type { Recording } from '../../protocol/recording.ts';

/** A file is not something that happens, also while it is being read in. */
export function isRunning({ open, origin }: Recording): boolean {
  return open && origin !== 'import';
}

/**
 * The one that it shows already while that is still running; else the latest that is running; else
 * what it shows; else the latest of all. Null where there is none.
 */
export function chooseRecording(
  recordings: readonly Recording[],
  shownId: number | null,
): number | null {
  const shown = recordings.find((recording) => recording.id === shownId);
  if (shown !== undefined && isRunning(shown)) return shown.id;
  const running = recordings.filter(isRunning);
  return latest(running) ?? shown?.id ?? latest(recordings);
}

function latest(recordings: readonly Recording[]): number | null {
  return recordings.reduce<number | null>(
    (best, { id }) => (best === null || id > best ? id : best),
    null,
  );
}
