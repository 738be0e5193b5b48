/** Whether the shown reading is what the sensor measures now: pure. */
import type { Recording } from '../../protocol/recording.ts';
import type { RecordState } from '../../protocol/record-state.ts';
import type { SourceState } from '../../protocol/source-state.ts';
import type { ConnectionState } from '../connection/connection-core.ts';
import { isRunning } from './choose-recording.ts';

export type Freshness =
  | { readonly kind: 'live' }
  /** Data time stands still, as in a rehearsal that pauses: nothing is missed. */
  | { readonly kind: 'paused' }
  /** The recording is complete: its conclusions stand, but nothing in it is 'now'. */
  | { readonly kind: 'ended' }
  | { readonly kind: 'catching_up' }
  /** True of the moment at which it was typed: nothing is overdue, but nothing is watched either. */
  | { readonly kind: 'typed_in' }
  | {
      readonly kind: 'stale';
      readonly sinceMs: number;
      /** 'record': the bridge hears the sensor, but keeps nothing, and what it can't keep it shows to nobody. */
      readonly why: 'connection' | 'sensor' | 'record';
    };

export function freshness(
  connection: ConnectionState,
  recording: Recording | null,
  source: SourceState | null,
  record: RecordState,
): Freshness {
  if (connection.phase === 'lost' || connection.phase === 'connecting') {
    return { kind: 'stale', sinceMs: connection.sinceMs, why: 'connection' };
  }
  if (recording !== null && !isRunning(recording)) return { kind: 'ended' };
  if (connection.phase === 'catching_up') return { kind: 'catching_up' };
  if (record.kind === 'held' || record.kind === 'stalled' || record.kind === 'damaged')
    return { kind: 'stale', sinceMs: record.sinceMs, why: 'record' };
  if (recording?.origin === 'typed_in') return { kind: 'typed_in' };
  if (source === null) return { kind: 'live' };
  switch (source.phase) {
    case 'live':
    case 'weak':
    case 'backfilling':
      return { kind: 'live' };
    case 'paused':
      return { kind: 'paused' };
    case 'finished':
      return { kind: 'ended' };
    case 'starting':
    case 'searching':
    case 'found':
    case 'connecting':
    case 'stale':
    case 'lost':
    case 'gone':
    case 'unavailable':
      return { kind: 'stale', sinceMs: source.sinceMs, why: 'sensor' };
  }
}

/** Whether what follows from the readings is about the present, as far as anybody has looked. */
export function isCurrent({ kind }: Freshness): boolean {
  return kind === 'live' || kind === 'paused' || kind === 'typed_in';
}
