/**
 * A file as a source of readings. Its rows become the bytes that a sensor would have sent, sent at
 * the times that stand in the file; the rows' running number is the sensor's.
 */
import type { CsvRow } from '../../../protocol/readings-csv.ts';
import type { SourcePhase } from '../../../protocol/source-state.ts';
import type { Source, SourceListener } from '../source.ts';
import { unheardReading } from '../unheard-reading.ts';
import type { ReadingsFile } from './readings-file.ts';

const SENSOR_ID = 'imported-file';
/** A file is one boot of whatever wrote it; any number does, in a recording of its own. */
const BOOT = 0;
/** Rows between two looks at whether there is room: the writer commits so many in some milliseconds. */
const ROWS_AT_ONCE = 2000;

interface ImportSourceOptions {
  readonly file: ReadingsFile;
  /** Resolves when what was delivered so far has been dealt with, and more may come. */
  readonly room: () => Promise<void>;
  /** For the labels of states: milliseconds since 1970 UTC. */
  readonly wallClock: () => number;
  readonly rowsAtOnce?: number;
}

export class ImportSource implements Source {
  readonly id = 'import';
  readonly #options: ImportSourceOptions;
  #listener: SourceListener | null = null;

  constructor(options: ImportSourceOptions) {
    this.#options = options;
  }

  start(listener: SourceListener): void {
    this.#listener = listener;
    listener.sensor({
      id: SENSOR_ID,
      name: this.#options.file.name,
      manufacturer: null,
      model: null,
      serial: null,
      firmware: null,
    });
    this.#enter('live');
    void this.#deliverAll();
  }

  /** What has not been delivered by now never is. */
  stop(): Promise<void> {
    this.#listener = null;
    return Promise.resolve();
  }

  async #deliverAll(): Promise<void> {
    const { file, room, rowsAtOnce = ROWS_AT_ONCE } = this.#options;
    let sequence = 0;
    for (const row of file.rows()) {
      if (sequence % rowsAtOnce === 0) await room();
      if (this.#listener === null) return;
      this.#deliver(this.#listener, row, sequence);
      sequence += 1;
    }
    await room();
    this.#enter('finished');
  }

  #deliver(listener: SourceListener, row: CsvRow, sequence: number): void {
    const uptimeMs = Math.round(row.elapsedS * 1000);
    const { pressurePa, temperatureC, event } = row;
    listener.reading({
      sensorId: SENSOR_ID,
      bytes: unheardReading({ boot: BOOT, sequence, uptimeMs, pressurePa, temperatureC }),
      arrivedMs: uptimeMs,
    });
    if (event !== null) listener.mark({ kind: event, elapsedS: uptimeMs / 1000, text: '' });
  }

  #enter(phase: SourcePhase): void {
    this.#listener?.state({
      id: this.id,
      kind: 'import',
      name: this.#options.file.name,
      phase,
      sinceMs: this.#options.wallClock(),
      problem: null,
      batteryPercent: null,
      signalDbm: null,
      clockRate: 1,
    });
  }
}
