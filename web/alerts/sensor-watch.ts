/** Watches the sensors of a recording themselves: whether they are heard, and how long their batteries last. */
import { z } from 'zod';
import { isRunning } from '../store/choose-recording.ts';
import { recall, remember } from '../store/remembered.ts';
import { speech } from '../store/speech.ts';
import { sourceOf } from '../store/source-of.ts';
import type { AlertFact } from '../words/alert-fact.ts';
import { saySensors } from '../words/say-sensor.ts';
import type { AlertBook } from './alert-book.ts';
import { dueBattery, type LowSaid } from './due-batteries.ts';
import { dueSilence, NO_SILENCE, type Silence } from './due-silence.ts';

interface Said {
  /** Channels whose battery was said to be low. */
  readonly low: LowSaid;
  /** Channels that were said to be silent, and not yet to be back. */
  readonly silent: readonly number[];
}
const saidSchema: z.ZodType<Said> = z.object({
  low: z.array(z.string()),
  silent: z.array(z.int()),
});
const NOTHING_SAID: Said = { low: [], silent: [] };

/** A page that came so soon after the first reading was there from the beginning, s. A setting of ours. */
const BEGINNING_S = 60;

interface SensorAbout extends Pick<AlertFact, 'atS' | 'sinceS'> {
  /** As people call it. */
  readonly sensor: string;
}

export class SensorWatch {
  readonly #book: AlertBook;
  /** Whether this window calls out. */
  #calls = false;
  #said: Said;
  readonly #silences = new Map<number, Silence>();
  /** Channels of whose battery this page has heard. */
  readonly #batteries = new Set<number>();
  /** Whether the recording had gone on for a while when the page came to it; null before it has. */
  #cameLater: boolean | null = null;

  constructor(book: AlertBook) {
    this.#book = book;
    this.#said = this.#remembered();
  }

  /**
   * @param nowMs this page's own clock, ms: it goes on while nothing is heard
   * @param calls whether this window calls out; it looks all the same, to know what is new once it does
   */
  look(nowMs: number, calls: boolean): void {
    const session = this.#book.session.value;
    const recording = session?.recording.value ?? null;
    const followed = session?.followed.value ?? null;
    if (session === null || recording === null || followed === null) return;
    if (!isRunning(recording)) return;
    if (recording.origin !== 'sensor' && recording.origin !== 'rehearsal') return;
    const sources = session.sources.value;
    // Without the bridge nobody knows how the sensor is.
    if (session.phase.value !== 'live') return;
    const latestS = followed.readings.latest()?.elapsedS ?? 0;
    this.#begin(latestS);
    if (calls && !this.#calls) this.#takeOver();
    this.#calls = calls;
    const names = saySensors(recording.sensors, speech.peek());
    for (const channel of recording.sensors.keys()) {
      const source = sourceOf(recording, channel, sources);
      if (source === null) continue;
      const readings = followed.readingsOf(channel);
      const atS = readings.length === 0 ? 0 : readings.elapsedS(readings.length - 1);
      const about = { sensor: names[channel] ?? '', atS, sinceS: atS };
      this.#lookForSilence(channel, source.phase, nowMs, source.clockRate, about);
      if (calls) this.#lookAtBattery(channel, source.batteryPercent, about);
    }
  }

  #lookAtBattery(channel: number, percent: number | null, about: SensorAbout): void {
    if (percent === null) return;
    // Low at the first look of a page that came later, it has been so for nobody knows how long.
    const early = this.#cameLater === true && !this.#batteries.has(channel);
    this.#batteries.add(channel);
    const { due, said } = dueBattery(
      {
        of: String(channel),
        percent,
        fact: (left) => ({
          kind: 'sensor_battery',
          percent: left,
          ...about,
          ...(early ? { sinceS: 0 } : {}),
        }),
      },
      this.#said.low,
    );
    if (said !== this.#said.low) this.#say({ ...this.#said, low: said });
    this.#book.announce(due, channel, early);
  }

  #lookForSilence(
    channel: number,
    phase: Parameters<typeof dueSilence>[0],
    nowMs: number,
    clockRate: number,
    about: SensorAbout,
  ): void {
    const said = this.#said.silent.includes(channel);
    const before = this.#silences.get(channel) ?? { ...NO_SILENCE, said };
    const { due, silence } = dueSilence(phase, nowMs, clockRate, before);
    this.#silences.set(channel, silence);
    if (due === null) return;
    const others = this.#said.silent.filter((one) => one !== channel);
    this.#say({ ...this.#said, silent: due === 'lost' ? [...others, channel] : others });
    if (!this.#calls) return;
    const kind = due === 'lost' ? 'sensor_lost' : 'sensor_back';
    // A sensor that this page never heard was lost before it was opened.
    this.#book.announce([{ kind, ...about }], channel, due === 'lost' && !before.wasHeard);
  }

  #begin(latestS: number): void {
    this.#cameLater ??= latestS > BEGINNING_S;
  }

  /** What no window has said is still to be said. */
  #takeOver(): void {
    this.#said = this.#remembered();
    for (const [channel, silence] of this.#silences) {
      this.#silences.set(channel, { ...silence, said: this.#said.silent.includes(channel) });
    }
  }

  #say(said: Said): void {
    this.#said = said;
    if (this.#calls) remember(this.#saidKey, said);
  }

  get #saidKey(): string {
    return `sensors-said.${this.#book.key}`;
  }

  #remembered(): Said {
    return recall(this.#saidKey, saidSchema, NOTHING_SAID);
  }
}
