/** A sensor that falls silent for longer than a hiccup, and that it is back. Pure. */
import type { SourcePhase } from '../../protocol/source-state.ts';

/**
 * Half a minute: a walk past the van's far side is over by then, and a hold is not yet spoilt. As long in
 * data time, where a rehearsal runs faster; but no flicker of a moment. Settings of ours.
 */
const SILENT_MS = 30_000;
const LEAST_MS = 2_000;

export interface Silence {
  /** Whether it was connected, as far as this page knows: who never came is not lost. */
  readonly known: boolean;
  /** Whether this page itself has met it live. */
  readonly wasHeard: boolean;
  /** Since when it has been silent, on this page's own clock, ms; null while it is heard. */
  readonly sinceMs: number | null;
  readonly said: boolean;
}
export const NO_SILENCE: Silence = {
  known: false,
  wasHeard: false,
  sinceMs: null,
  said: false,
};

export interface DueSilence {
  readonly due: 'lost' | 'back' | null;
  /** The same object where nothing changed. */
  readonly silence: Silence;
}

const HEARD: readonly SourcePhase[] = ['live', 'weak', 'backfilling'];
/** Said only of a sensor that was connected since the bridge was started. */
const LOST: readonly SourcePhase[] = ['stale', 'lost', 'gone'];
/** Nothing is missed, and nothing is heard either. */
const AT_REST: readonly SourcePhase[] = ['paused', 'finished'];

/**
 * @param nowMs this page's clock: the bridge's may be another
 * @param clockRate data seconds a second
 */
export function dueSilence(
  phase: SourcePhase,
  nowMs: number,
  clockRate: number,
  before: Silence,
): DueSilence {
  if (HEARD.includes(phase)) {
    const silence = { known: true, wasHeard: true, sinceMs: null, said: false };
    if (before.said) return { due: 'back', silence };
    return { due: null, silence: before.wasHeard && before.sinceMs === null ? before : silence };
  }
  if (AT_REST.includes(phase)) {
    return { due: null, silence: before.sinceMs === null ? before : { ...before, sinceMs: null } };
  }
  const known = before.known || LOST.includes(phase);
  if (!known || before.said) return { due: null, silence: before };
  const sinceMs = before.sinceMs ?? nowMs;
  const limitMs = Math.max(SILENT_MS / clockRate, LEAST_MS);
  if (nowMs - sinceMs >= limitMs)
    return { due: 'lost', silence: { ...before, known, sinceMs, said: true } };
  const same = before.known === known && before.sinceMs === sinceMs;
  return { due: null, silence: same ? before : { ...before, known, sinceMs } };
}
