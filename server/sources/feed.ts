/**
 * Brings one source's readings into the record. The recording begins with the first reading: nobody
 * has to press a button, and nobody loses data because one was not pressed.
 */
import type { Mark, NewMark } from '../../protocol/mark.ts';
import type { ReceivedReading } from '../../protocol/reading.ts';
import type { Origin, SensorIdentity } from '../../protocol/recording.ts';
import type { SourceState } from '../../protocol/source-state.ts';
import { Intake } from './intake.ts';
import type { ResumePoint } from './resume-point.ts';
import type { RawReading, SourceListener } from './source.ts';

/** Where facts go; the record, in the running bridge. */
export interface Ledger {
  begin(origin: Origin, startedAtMs: number, title: string): number;
  end(recordingId: number, endedAtMs: number): void;
  sensor(recordingId: number, channel: number, identity: SensorIdentity): void;
  readings(recordingId: number, readings: readonly ReceivedReading[]): void;
  mark(recordingId: number, mark: NewMark, madeBy: Mark['madeBy']): Promise<Mark>;
}

/** A recording that was still open when the bridge ended, to be gone on with. */
export interface Unfinished {
  readonly recordingId: number;
  readonly startedAtMs: number;
  readonly lastElapsedS: number;
  readonly sensors: readonly SensorIdentity[];
  /** By the sensors' channels; a sensor of which nothing was recorded has none. */
  readonly resumePoints?: ReadonlyMap<number, ResumePoint>;
}

interface FeedOptions {
  readonly ledger: Ledger;
  readonly origin: Origin;
  readonly title: string;
  /** Who is behind a mark that the source delivers. */
  readonly marksMadeBy: Mark['madeBy'];
  /** On the source's clock: when data time zero is; otherwise at the first reading. */
  readonly zeroMs?: number;
  /** The longest silence within one recording, s. */
  readonly longestSilenceS?: number;
  readonly wallClock: () => number;
  readonly onState: (state: SourceState) => void;
  readonly unfinished: Unfinished | null;
  /** The first reading has come and the recording has begun. */
  readonly onBegin?: (recordingId: number) => void;
}

/** As many as `recordingSchema` holds. */
const MOST_SENSORS = 256;

/** A visit to a system: after so long a silence the next reading belongs to another one. */
export const NEW_RECORDING_AFTER_S = 12 * 3600;

interface OpenRecording {
  readonly id: number;
  /** On the source's clock: when data time zero was. */
  readonly zeroMs: number;
  lastArrivedS: number;
  /** The latest data time of a reading that was heard. */
  lastElapsedS: number;
  /** By the computer's clocks, since the last reading that was heard. */
  sleptS: number;
  readonly channels: Map<string, number>;
  readonly intakes: Map<string, Intake>;
  readonly resumePoints: ReadonlyMap<number, ResumePoint>;
}

export class Feed implements SourceListener {
  readonly #options: FeedOptions;
  readonly #identities = new Map<string, SensorIdentity>();
  #unfinished: Unfinished | null;
  #recording: OpenRecording | null = null;
  #lastState: SourceState | null = null;
  /** The sensors whose latest bytes could not be read. */
  readonly #notUnderstood = new Set<string>();
  /** By how many per cent the clocks run fast that had to be put right. */
  readonly #clocks = new Map<string, number>();

  constructor(options: FeedOptions) {
    this.#options = options;
    this.#unfinished = options.unfinished;
  }

  /** The recording that this feed writes now, or null before its first reading. */
  get recordingId(): number | null {
    return this.#recording?.id ?? null;
  }

  sensor(identity: SensorIdentity): void {
    this.#identities.set(identity.id, identity);
    const recording = this.#recording;
    const channel = recording?.channels.get(identity.id);
    if (recording && channel !== undefined) {
      this.#options.ledger.sensor(recording.id, channel, identity);
    }
  }

  /**
   * Goes on with the recording, or begins one, before there is a reading for it.
   * @param nowMs on the source's clock
   * @param beginMs where a recording begins with it: when data time zero was, on the source's clock
   * @returns the data time of `nowMs`, s
   */
  open(nowMs: number, beginMs: number): number {
    return (nowMs - this.#recordingFor(nowMs, beginMs).zeroMs) / 1000;
  }

  reading(raw: RawReading): void {
    const recording = this.#recordingFor(raw.arrivedMs);
    const arrivedS = (raw.arrivedMs - recording.zeroMs) / 1000;
    // More than a recording can tell apart are no sensors of a job: somebody sends from ever new addresses.
    const isKnown = recording.channels.has(raw.sensorId);
    if (!isKnown && recording.channels.size >= MOST_SENSORS) return;
    const intake = this.#intake(recording, raw.sensorId);
    const taken = intake.take(raw.bytes, arrivedS, raw.fetched);
    recording.lastArrivedS = Math.max(recording.lastArrivedS, arrivedS);
    if (taken.kind === 'reading') {
      this.#noteSleep(recording, raw, taken.reading.elapsedS);
      this.#options.ledger.readings(recording.id, [taken.reading]);
    }
    if (taken.kind === 'reading' || taken.kind === 'unreadable') {
      this.#understood(raw.sensorId, taken.kind === 'reading');
    }
    this.#noteClock(raw.sensorId, intake.clockFastPercent);
  }

  heardBefore(sensorId: string): ResumePoint | null {
    // The first sensor's first reading makes the unfinished recording the present one.
    if (this.#recording !== null) {
      const { channels, resumePoints } = this.#recording;
      return resumePoints.get(channels.get(sensorId) ?? -1) ?? null;
    }
    const unfinished = this.#unfinished;
    if (unfinished === null || this.#isOver(unfinished)) return null;
    const channel = unfinished.sensors.findIndex(({ id }) => id === sensorId);
    return unfinished.resumePoints?.get(channel) ?? null;
  }

  mark(mark: NewMark): void {
    const { ledger, marksMadeBy } = this.#options;
    if (this.#recording) void ledger.mark(this.#recording.id, mark, marksMadeBy);
  }

  state(state: SourceState): void {
    this.#lastState = state;
    this.#options.onState(withClocks(withoutSense(state, this.#notUnderstood), this.#clocks));
  }

  /**
   * No more readings will come: the recording ends, also one that would have been gone on with.
   * @returns its id, or null where there was none
   */
  finish(): number | null {
    const recordingId = this.#recording?.id ?? this.#unfinished?.recordingId ?? null;
    if (recordingId !== null) this.#options.ledger.end(recordingId, this.#options.wallClock());
    this.#recording = null;
    this.#unfinished = null;
    return recordingId;
  }

  #recordingFor(arrivedMs: number, beginMs = arrivedMs): OpenRecording {
    const present = this.#recording;
    if (present) {
      const silenceS = (arrivedMs - present.zeroMs) / 1000 - present.lastArrivedS;
      const { longestSilenceS = NEW_RECORDING_AFTER_S } = this.#options;
      if (silenceS < longestSilenceS) return present;
      this.finish();
    }
    this.#recording = this.#goOn(arrivedMs) ?? this.#begin(arrivedMs, beginMs);
    return this.#recording;
  }

  #begin(arrivedMs: number, beginMs: number): OpenRecording {
    const { ledger, origin, title, wallClock, zeroMs = beginMs } = this.#options;
    const id = ledger.begin(origin, wallClock() - Math.round(arrivedMs - beginMs), title);
    this.#options.onBegin?.(id);
    return {
      id,
      zeroMs,
      lastArrivedS: (arrivedMs - zeroMs) / 1000,
      lastElapsedS: 0,
      sleptS: 0,
      channels: new Map(),
      intakes: new Map(),
      resumePoints: new Map(),
    };
  }

  /** After a restart of the bridge only the wall clock knows how long it was away. */
  #goOn(arrivedMs: number): OpenRecording | null {
    const unfinished = this.#unfinished;
    this.#unfinished = null;
    if (!unfinished) return null;
    const { wallClock, ledger } = this.#options;
    if (this.#isOver(unfinished)) {
      ledger.end(unfinished.recordingId, wallClock());
      return null;
    }
    const wallElapsedS = this.#wallElapsedS(unfinished);
    // A wall clock that was set back must not lay new readings over old ones.
    const nowS = Math.max(wallElapsedS, unfinished.lastElapsedS);
    return {
      id: unfinished.recordingId,
      zeroMs: arrivedMs - nowS * 1000,
      lastArrivedS: nowS,
      lastElapsedS: nowS,
      sleptS: 0,
      channels: new Map(unfinished.sensors.map((sensor, channel) => [sensor.id, channel])),
      intakes: new Map(),
      resumePoints: unfinished.resumePoints ?? new Map(),
    };
  }

  #isOver(unfinished: Unfinished): boolean {
    return this.#wallElapsedS(unfinished) - unfinished.lastElapsedS > NEW_RECORDING_AFTER_S;
  }

  #wallElapsedS({ startedAtMs }: Unfinished): number {
    return (this.#options.wallClock() - startedAtMs) / 1000;
  }

  #intake(recording: OpenRecording, sensorId: string): Intake {
    const present = recording.intakes.get(sensorId);
    if (present) return present;
    const channel = recording.channels.get(sensorId) ?? recording.channels.size;
    recording.channels.set(sensorId, channel);
    const intake = new Intake(channel, recording.resumePoints.get(channel));
    recording.intakes.set(sensorId, intake);
    this.#options.ledger.sensor(
      recording.id,
      channel,
      this.#identities.get(sensorId) ?? nameless(sensorId),
    );
    return intake;
  }

  /** Only where the sensor's clock bears it out: else the computer's was set, which is nobody's concern. */
  #noteSleep(
    recording: OpenRecording,
    { sleptMs = 0, fetched }: RawReading,
    elapsedS: number,
  ): void {
    recording.sleptS += sleptMs / 1000;
    if (fetched === true) return;
    const { sleptS, lastElapsedS } = recording;
    recording.sleptS = 0;
    recording.lastElapsedS = Math.max(lastElapsedS, elapsedS);
    if (sleptS === 0 || elapsedS - lastElapsedS < sleptS / 2) return;
    const text = `The computer slept for ${sayLength(sleptS)}. What the sensor kept of it is fetched.`;
    const mark = { kind: 'note', elapsedS: lastElapsedS, text } as const;
    void this.#options.ledger.mark(recording.id, mark, 'bridge');
  }

  /** Said when it is found out, and with every state from then on. */
  #noteClock(sensorId: string, fastPercent: number): void {
    if ((this.#clocks.get(sensorId) ?? 0) === fastPercent) return;
    this.#clocks.set(sensorId, fastPercent);
    if (this.#lastState) this.state(this.#lastState);
  }

  /** Said once when it begins and once when it ends, and with every state between. */
  #understood(sensorId: string, understood: boolean): void {
    if (this.#notUnderstood.has(sensorId) !== understood) return;
    if (understood) this.#notUnderstood.delete(sensorId);
    else this.#notUnderstood.add(sensorId);
    if (this.#lastState) this.state(this.#lastState);
  }
}

/** What the source itself has to say comes first. */
function withoutSense(state: SourceState, notUnderstood: ReadonlySet<string>): SourceState {
  if (notUnderstood.size === 0) return state;
  const problem = 'sensor_not_understood';
  const sensors = state.sensors.map((sensor) =>
    notUnderstood.has(sensor.sensorId) ? { ...sensor, problem: sensor.problem ?? problem } : sensor,
  );
  return { ...state, problem: state.problem ?? problem, sensors };
}

function withClocks(state: SourceState, clocks: ReadonlyMap<string, number>): SourceState {
  if (clocks.size === 0) return state;
  const sensors = state.sensors.map((sensor) => {
    const clockFastPercent = clocks.get(sensor.sensorId) ?? 0;
    return clockFastPercent === 0 ? sensor : { ...sensor, clockFastPercent };
  });
  return { ...state, sensors };
}

/** '40 s', '61 min'. */
function sayLength(lengthS: number): string {
  return lengthS < 120 ? `${Math.round(lengthS)} s` : `${Math.round(lengthS / 60)} min`;
}

function nameless(id: string): SensorIdentity {
  return { id, name: '', manufacturer: null, model: null, serial: null, firmware: null };
}
