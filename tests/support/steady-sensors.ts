/** Sensors that never miss a beat: what they have delivered is known, and so is what the record must have of it. */
import { z } from 'zod';
import { openForReading } from '../../server/record/open-database.ts';
import type { Source, SourceListener } from '../../server/sources/source.ts';
import { readingBytes } from './reading-bytes.ts';

const PERIOD_MS = 100;

export class SteadySensors implements Source {
  readonly id = 'radio';
  /** Of each sensor. */
  delivered = 0;
  readonly #sensors: number;
  readonly #isByHand: boolean;
  #listener: SourceListener | null = null;
  #timer: NodeJS.Timeout | undefined;

  /** @param isByHand they deliver when they are told to, as fast as that may be */
  constructor(sensors: number, isByHand = false) {
    this.#sensors = sensors;
    this.#isByHand = isByHand;
  }

  /** At 10 Hz of the wall's clock: what a busy process was late with is delivered as soon as it can. */
  start(listener: SourceListener): void {
    this.#listener = listener;
    if (this.#isByHand) return;
    const beganMs = performance.now();
    this.#timer = setInterval(() => {
      const due = Math.floor((performance.now() - beganMs) / PERIOD_MS) + 1;
      while (this.delivered < due) this.deliver(beganMs);
    }, PERIOD_MS / 4);
  }

  /** One reading of each. @param beganMs when the first of them was due */
  deliver(beganMs = 0): void {
    const sequence = this.delivered;
    const arrivedMs = beganMs + sequence * PERIOD_MS;
    for (let sensor = 0; sensor < this.#sensors; sensor += 1) {
      const uptimeMs = sequence * PERIOD_MS;
      const bytes = readingBytes({ sequence, uptimeMs, pressurePa: pressureOf(sensor, sequence) });
      this.#listener?.reading({ sensorId: `steady-${sensor}`, bytes, arrivedMs });
    }
    this.delivered += 1;
  }

  stop(): Promise<void> {
    clearInterval(this.#timer);
    return Promise.resolve();
  }
}

/** What a sensor says follows from its number: whole millipascals. */
function pressureOf(sensor: number, sequence: number): number {
  return (100_000 + ((sensor * 7919 + sequence * 31) % 50_000)) / 1000;
}

const rowSchema = z.tuple([z.int(), z.int(), z.number().nullable()]);

/**
 * How many of so many readings of each sensor a recording does not have, or has otherwise or twice.
 * @param dataFolder of a bridge that has ended, or is running
 */
export function lostReadings(
  dataFolder: string,
  recordingId: number,
  sensors: number,
  delivered: number,
): number {
  const database = openForReading(dataFolder);
  try {
    const rows = database
      .prepare('SELECT channel, sequence, pressure_pa FROM reading WHERE recording_id = ?')
      .raw();
    let right = 0;
    let wrong = 0;
    for (const found of rows.iterate(recordingId)) {
      const [channel, sequence, pressurePa] = rowSchema.parse(found);
      if (sequence >= delivered) continue;
      if (pressurePa === pressureOf(channel, sequence)) right += 1;
      else wrong += 1;
    }
    return Math.abs(sensors * delivered - right) + wrong;
  } finally {
    database.close();
  }
}
