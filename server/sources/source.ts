/** What every source of readings is to the rest of the bridge. */
import type { NewMark } from '../../protocol/mark.ts';
import type { SensorIdentity } from '../../protocol/recording.ts';
import type { ResumePoint } from './resume-point.ts';
import type { SourceState } from '../../protocol/source-state.ts';

/** A reading as it came: the bytes of the profile's Reading characteristic, and when they came. */
export interface RawReading {
  readonly sensorId: string;
  readonly bytes: Uint8Array;
  /** On the source's own monotonic clock, milliseconds. */
  readonly arrivedMs: number;
  /** The sensor had kept it, and it was asked for after it had been missed. */
  readonly fetched?: boolean;
  /** By the computer's clocks it slept so long since the reading before, ms; or somebody set one of them. */
  readonly sleptMs?: number;
}

/**
 * Where a source delivers. Calls come in the order of events; none of them throws, and a source
 * calls nothing any more once its `stop` has resolved.
 */
export interface SourceListener {
  /** Known before the sensor's first reading, and again when more is learnt about it. */
  sensor(identity: SensorIdentity): void;
  reading(raw: RawReading): void;
  /** An event that the source itself brought about (a rehearsal's helper); `elapsedS` on its clock. */
  mark(mark: NewMark): void;
  state(state: SourceState): void;
  /** Where the sensor's readings stood when the bridge ended; null where nothing goes on. */
  heardBefore?(sensorId: string): ResumePoint | null;
}

export interface Source {
  readonly id: string;
  /** Begins to deliver; failures are delivered as a state, never thrown. */
  start(listener: SourceListener): void;
  /** Sensors that are heard only if somebody has chosen them; in place of all before. */
  choose?(sensorIds: readonly string[]): void;
  /** Ends within a bounded time and frees everything. */
  stop(): Promise<void>;
}
