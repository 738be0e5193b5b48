/**
 * The phases of one sensor, which of them may follow which, and what keeps each from lasting for ever.
 *
 *   found → connecting → live ⇄ stale → lost → found …
 */
import type { RadioTiming } from './timing.ts';

export const SESSION_PHASES = ['found', 'connecting', 'live', 'stale', 'lost'] as const;
export type SessionPhase = (typeof SESSION_PHASES)[number];

interface PhaseRule {
  readonly next: readonly SessionPhase[];
  /** The wait that ends it where nothing else does. */
  readonly limit: keyof RadioTiming;
}

export const PHASE_RULES: Readonly<Record<SessionPhase, PhaseRule>> = {
  /** Heard in a search; its turn to be connected comes after others', or after a pause. */
  found: { next: ['connecting', 'lost'], limit: 'foundMs' },
  /** On the way to listening; after that comes the first reading, or silence. */
  connecting: { next: ['live', 'stale', 'lost'], limit: 'introductionMs' },
  live: { next: ['stale', 'lost'], limit: 'silenceMs' },
  stale: { next: ['live', 'lost'], limit: 'silenceGraceMs' },
  /** Nothing has to happen: the air is searched again after this. */
  lost: { next: ['found', 'connecting'], limit: 'searchRestMs' },
};

/** @param from null before anything is known of the sensor */
export function mayFollow(from: SessionPhase | null, to: SessionPhase): boolean {
  return from === null || PHASE_RULES[from].next.includes(to);
}
