/**
 * One connection to one sensor, from asking for it to its end: connecting → live ⇄ stale → lost.
 *
 * Everything that the session waits for is cut short when the link or the adapter is lost, and when
 * it has ended nothing of it is left in the host library.
 */
import type { Stretch } from '../number-set.ts';
import { connect, disconnect } from './connection.ts';
import { asError, DeadlineError, pause } from './deadline.ts';
import type { HostPeripheral } from './host-library.ts';
import type { Link } from './link.ts';
import { monotonicMs } from './monotonic-clock.ts';
import type { FromRadio, SessionReport } from './messages.ts';
import {
  discoverCharacteristics,
  nameFromId,
  readBattery,
  readIdentity,
  readSignal,
  type Characteristics,
} from './sensor-requests.ts';
import { problemOf, sessionEnd, SilenceError, type SessionEnd } from './session-end.ts';
import { mayFollow, type SessionPhase } from './session-phases.ts';
import { speechOf, type Speech } from './speech.ts';
import { StoredReadings } from './stored-readings.ts';
import type { RadioTiming } from './timing.ts';

export interface SessionOptions {
  readonly peripheral: HostPeripheral;
  readonly timing: RadioTiming;
  /** Aborted when the adapter is off, or when everything ends. */
  readonly adapter: AbortSignal;
  readonly report: (message: FromRadio) => void;
  /** The connection stands: another sensor may be connected with. */
  readonly onSubscribed: () => void;
  /** The sensor has answered or sent something, so it is not the host library that fails. */
  readonly onHeard: () => void;
}

/** Five intervals without a reading are more than a weak signal's retransmissions explain. */
const SILENT_INTERVALS = 5;

export class SensorSession {
  readonly #options: SessionOptions;
  readonly #abort = new AbortController();
  readonly #link: Link;
  #name: string;
  #phase: SessionPhase | null = null;
  /** What is to be said of it while readings come. */
  #remark: Speech['problem'] = null;
  #heardMs = 0;
  #delivered = false;
  #unlisten: () => void = () => undefined;
  /** What is still to be fetched, and how whoever waits for more is told. */
  readonly #toFetch: Stretch[] = [];
  #wake: () => void = () => undefined;

  constructor(options: SessionOptions) {
    const { peripheral, timing, onHeard } = options;
    this.#options = options;
    this.#link = {
      peripheral,
      limitMs: timing.answerMs,
      signal: this.#abort.signal,
      onAnswer: onHeard,
    };
    this.#name = peripheral.advertisement.localName ?? nameFromId(peripheral.id);
  }

  /** Asks the sensor for readings that it has kept, after those that were asked for before. */
  fetch(stretch: Stretch): void {
    this.#toFetch.push(stretch);
    this.#wake();
  }

  /** Resolves when the session has ended; never rejects. */
  async run(): Promise<SessionEnd> {
    const { adapter, peripheral, timing, onSubscribed } = this.#options;
    const onDisconnect = (): void => this.#abort.abort(new Error('the link was lost'));
    const onAdapterLost = (): void => this.#abort.abort(adapter.reason);
    peripheral.on('disconnect', onDisconnect);
    adapter.addEventListener('abort', onAdapterLost);
    let failure: unknown;
    let timer: NodeJS.Timeout | undefined;
    try {
      this.#enter('connecting');
      timer = setTimeout(() => this.#abort.abort(tooLong(timing)), timing.introductionMs);
      await connect(peripheral, timing.connectMs, this.#link.signal);
      const found = await discoverCharacteristics(this.#link);
      const speech = await this.#introduce(found);
      const { goOn, stop } = await speech.listen((bytes) => this.#take(bytes));
      this.#unlisten = stop;
      clearTimeout(timer);
      onSubscribed();
      await this.#stay(found, speech.intervalMs, goOn);
    } catch (error) {
      failure = error;
    }
    clearTimeout(timer);
    this.#abort.abort(new Error('the session has ended'));
    this.#unlisten();
    peripheral.removeListener('disconnect', onDisconnect);
    adapter.removeEventListener('abort', onAdapterLost);
    await disconnect(peripheral, timing.stopMs / 2);
    const end = sessionEnd(failure, this.#delivered);
    this.#enter('lost', problemOf(end));
    return end;
  }

  /** Learns who the sensor is and how it speaks, before its first reading. */
  async #introduce(found: Characteristics): Promise<Speech> {
    const { peripheral, report } = this.#options;
    const speech = await speechOf(this.#link, found);
    this.#remark = speech.problem;
    report({ type: 'store', sensorId: peripheral.id, depth: speech.bufferDepth });
    const identity = await readIdentity(this.#link, found, speech.simulated);
    this.#name = identity.name;
    report({ type: 'sensor', identity });
    this.#reportSignal(peripheral.rssi);
    await this.#reportBattery(found);
    return speech;
  }

  #take(bytes: Uint8Array): void {
    const { peripheral, report, onHeard } = this.#options;
    const arrivedMs = monotonicMs();
    this.#heardMs = arrivedMs;
    this.#delivered = true;
    onHeard();
    this.#enter('live');
    report({ type: 'reading', sensorId: peripheral.id, bytes, arrivedMs, fetched: false });
  }

  /** Stays until something fails: each of these ends only by throwing. */
  async #stay(found: Characteristics, intervalMs: number, goOn: () => Promise<never>) {
    const { silenceMs, batteryMs, signalMs } = this.#options.timing;
    await Promise.race([
      goOn(),
      this.#watchSilence(Math.max(silenceMs, SILENT_INTERVALS * intervalMs)),
      this.#repeat(batteryMs, () => this.#reportBattery(found)),
      this.#repeat(signalMs, () => this.#measureSignal()),
      this.#fetchAsAsked(found),
    ]);
  }

  /** One stretch after the other. Why one failed is the sensor's affair: live readings go on. */
  async #fetchAsAsked(found: Characteristics): Promise<never> {
    const { peripheral, report } = this.#options;
    const sensorId = peripheral.id;
    const stored = StoredReadings.of(this.#link, found, (bytes) => {
      report({ type: 'reading', sensorId, bytes, arrivedMs: monotonicMs(), fetched: true });
    });
    try {
      for (;;) {
        const stretch = this.#toFetch.shift();
        if (stretch === undefined) {
          await this.#untilAsked();
          continue;
        }
        const whole = stored === null || (await stored.fetch(stretch).catch(this.#survive));
        report({ type: 'fetched', sensorId, ...stretch, whole });
      }
    } finally {
      stored?.close();
    }
  }

  /** A refusal or a late answer is no reason to end a session in which readings come. */
  readonly #survive = (error: unknown): false => {
    const { signal } = this.#link;
    if (signal.aborted) throw asError(signal.reason);
    const text = error instanceof Error ? error.message : String(error);
    this.#options.report({ type: 'log', text: `sensor ${this.#name}: not fetched, ${text}` });
    return false;
  };

  #untilAsked(): Promise<void> {
    const { signal } = this.#link;
    return new Promise((resolve, reject) => {
      const settle = (finish: () => void): void => {
        this.#wake = () => undefined;
        signal.removeEventListener('abort', onAbort);
        finish();
      };
      const onAbort = (): void => settle(() => reject(asError(signal.reason)));
      this.#wake = () => settle(resolve);
      signal.addEventListener('abort', onAbort);
      if (signal.aborted) onAbort();
      else if (this.#toFetch.length > 0) this.#wake();
    });
  }

  async #watchSilence(limitMs: number): Promise<never> {
    this.#heardMs = monotonicMs();
    const endMs = limitMs + this.#options.timing.silenceGraceMs;
    for (;;) {
      const silentMs = monotonicMs() - this.#heardMs;
      if (silentMs >= endMs) throw new SilenceError(`nothing for ${Math.round(silentMs)} ms`);
      if (silentMs >= limitMs) this.#enter('stale', 'sensor_silent');
      const next = silentMs >= limitMs ? endMs : limitMs;
      await pause(next - silentMs, this.#link.signal);
    }
  }

  /** What isn't answered is asked again: no reading depends on it, and silence is watched for. */
  async #repeat(everyMs: number, action: () => Promise<void>): Promise<never> {
    for (;;) {
      await pause(everyMs, this.#link.signal);
      await action().catch((error: unknown) => {
        if (!(error instanceof DeadlineError)) throw error;
      });
    }
  }

  async #reportBattery(found: Characteristics): Promise<void> {
    const { report, peripheral } = this.#options;
    const percent = await readBattery(this.#link, found);
    if (percent !== null) report({ type: 'battery', sensorId: peripheral.id, percent });
  }

  async #measureSignal(): Promise<void> {
    this.#reportSignal(await readSignal(this.#link));
  }

  #reportSignal(dbm: number): void {
    const { report, peripheral } = this.#options;
    // 127 stands for 'not available' (Core Specification, Vol 4, Part E, section 7.5.4).
    if (dbm < 127) report({ type: 'signal', sensorId: peripheral.id, dbm });
  }

  #enter(phase: SessionPhase, problem: SessionReport['problem'] = null): void {
    if (phase === this.#phase || !mayFollow(this.#phase, phase)) return;
    this.#phase = phase;
    this.#options.report({
      type: 'session',
      sensorId: this.#options.peripheral.id,
      name: this.#name.slice(0, 100),
      phase,
      problem: phase === 'live' ? this.#remark : problem,
    });
  }
}

function tooLong({ introductionMs }: RadioTiming): Error {
  return new DeadlineError(`from connecting to the first reading: more than ${introductionMs} ms`);
}
