/** Watches the sensors themselves: whether they are heard, and how long their batteries last. */
import { z } from 'zod';
import { isRunning } from '../store/choose-recording.ts';
import { recall, remember } from '../store/remembered.ts';
import type { Session } from '../store/session.ts';
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

export class SensorWatch {
  readonly #session: Session;
  readonly #book: AlertBook;
  /** Of which recording what follows is. */
  #key = '';
  #said: Said = NOTHING_SAID;
  readonly #silences = new Map<number, Silence>();

  constructor(session: Session, book: AlertBook) {
    this.#session = session;
    this.#book = book;
  }

  /** @param nowMs this page's own clock, ms: it goes on while nothing is heard */
  look(nowMs: number): void {
    const recording = this.#session.recording.value;
    const followed = this.#session.followed.value;
    const sources = this.#session.sources.value;
    if (recording === null || followed === null || !isRunning(recording)) return;
    if (recording.origin !== 'sensor' && recording.origin !== 'rehearsal') return;
    // Without the bridge nobody knows how the sensor is.
    if (this.#session.connection.value.phase !== 'live') return;
    this.#turnTo(`${recording.startedAtMs}.${recording.id}`);
    const names = saySensors(recording.sensors, speech.peek());
    for (const channel of recording.sensors.keys()) {
      const source = sourceOf(recording, channel, sources);
      if (source === null) continue;
      const readings = followed.readingsOf(channel);
      const atS = readings.length === 0 ? 0 : readings.elapsedS(readings.length - 1);
      const about = { sensor: names[channel] ?? '', atS, sinceS: atS };
      this.#lookForSilence(channel, source.phase, nowMs, source.clockRate, about);
      const { due, said } = dueBattery(
        {
          of: String(channel),
          percent: source.batteryPercent,
          fact: (percent) => ({ kind: 'sensor_battery', percent, ...about }),
        },
        this.#said.low,
      );
      if (said !== this.#said.low) this.#say({ ...this.#said, low: said });
      this.#book.announce(due, channel, false);
    }
  }

  #lookForSilence(
    channel: number,
    phase: Parameters<typeof dueSilence>[0],
    nowMs: number,
    clockRate: number,
    about: Pick<AlertFact, 'atS' | 'sinceS'> & { readonly sensor: string },
  ): void {
    const said = this.#said.silent.includes(channel);
    const before = this.#silences.get(channel) ?? { ...NO_SILENCE, said };
    const { due, silence } = dueSilence(phase, nowMs, clockRate, before);
    this.#silences.set(channel, silence);
    if (due === null) return;
    const others = this.#said.silent.filter((one) => one !== channel);
    this.#say({ ...this.#said, silent: due === 'lost' ? [...others, channel] : others });
    const kind = due === 'lost' ? 'sensor_lost' : 'sensor_back';
    // A sensor that this page never heard was lost before it was opened.
    this.#book.announce([{ kind, ...about }], channel, due === 'lost' && !before.wasHeard);
  }

  #turnTo(key: string): void {
    if (key === this.#key) return;
    this.#key = key;
    this.#silences.clear();
    this.#said = recall(`sensors-said.${key}`, saidSchema, NOTHING_SAID);
  }

  #say(said: Said): void {
    this.#said = said;
    remember(`sensors-said.${this.#key}`, said);
  }
}
