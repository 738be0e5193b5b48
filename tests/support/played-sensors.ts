/** Sensors that a test plays by hand, in the place of the radio: any number, at once. */
import type { SensorIdentity } from '../../protocol/recording.ts';
import type { SourcePhase } from '../../protocol/source-state.ts';
import type { Source, SourceListener } from '../../server/sources/source.ts';
import { unheardReading } from '../../server/sources/unheard-reading.ts';

interface Played {
  readonly identity: SensorIdentity;
  sequence: number;
  phase: SourcePhase;
  batteryPercent: number | null;
}

export class PlayedSensors implements Source {
  readonly id = 'radio';
  readonly #sensors = new Map<string, Played>();
  #listener: SourceListener | null = null;

  start(listener: SourceListener): void {
    this.#listener = listener;
  }

  stop(): Promise<void> {
    this.#listener = null;
    return Promise.resolve();
  }

  /** A sensor comes within reach. */
  meet(id: string, name: string): void {
    const identity = { id, name, manufacturer: null, model: null, serial: null, firmware: null };
    this.#sensors.set(id, { identity, sequence: 0, phase: 'live', batteryPercent: null });
    this.#listener?.sensor(identity);
    this.#tell();
  }

  /** @param uptimeS its clock, which began with the recording; null: over range */
  measure(id: string, uptimeS: number, pressurePa: number | null): void {
    const sensor = this.#of(id);
    this.#say(id, sensor.sequence, uptimeS, pressurePa);
    sensor.sequence += 1;
  }

  /** So many readings are measured and not heard. @returns the number of the first of them */
  lose(id: string, count: number): number {
    const sensor = this.#of(id);
    const first = sensor.sequence;
    sensor.sequence += count;
    return first;
  }

  /** From the sensor's own store: one that was lost, by its number. */
  fetch(id: string, sequence: number, uptimeS: number, pressurePa: number): void {
    this.#say(id, sequence, uptimeS, pressurePa);
  }

  #say(id: string, sequence: number, uptimeS: number, pressurePa: number | null): void {
    this.#listener?.reading({
      sensorId: id,
      arrivedMs: uptimeS * 1000,
      bytes: unheardReading({
        boot: 7,
        sequence,
        uptimeMs: Math.round(uptimeS * 1000),
        pressurePa,
        temperatureC: null,
      }),
    });
  }

  enter(id: string, phase: SourcePhase): void {
    this.#of(id).phase = phase;
    this.#tell();
  }

  /** It says how full its battery is. */
  hasBattery(id: string, percent: number): void {
    this.#of(id).batteryPercent = percent;
    this.#tell();
  }

  #of(id: string): Played {
    const sensor = this.#sensors.get(id);
    if (sensor === undefined) throw new Error(`no sensor "${id}" was met`);
    return sensor;
  }

  #tell(): void {
    const common = { sinceMs: Date.now(), problem: null, batteryPercent: null, signalDbm: null };
    const all = [...this.#sensors.values()];
    this.#listener?.state({
      id: this.id,
      kind: 'radio',
      name: all[0]?.identity.name ?? '',
      phase: all.some(({ phase }) => phase === 'live') ? 'live' : 'lost',
      ...common,
      clockRate: 1,
      sensors: all.map(({ identity: { id, name }, phase, batteryPercent }) => ({
        sensorId: id,
        name,
        phase,
        ...common,
        batteryPercent,
      })),
    });
  }
}
