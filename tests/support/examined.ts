/** Virtual sensors under examination, in this process, with the first host library on a virtual adapter. */
import { adapterOn } from '../../server/commands/conformance/adapter.ts';
import type { Result } from '../../server/commands/conformance/check.ts';
import { examine } from '../../server/commands/conformance/examine.ts';
import type { Patience } from '../../server/commands/conformance/patience.ts';
import {
  placeSensor,
  useVirtualAdapter,
} from '../../server/commands/conformance/virtual-subject.ts';
import type { HostLibrary } from '../../server/sources/radio/host-library.ts';
import { loadHostLibrary } from '../../server/sources/radio/load-host-library.ts';
import { VirtualAir } from '../../simulators/sensor/virtual-air.ts';
import type { VirtualSensorOptions } from '../../simulators/sensor/virtual-sensor.ts';

/** Shorter than in earnest, and long enough for a computer that is busy with other tests. */
export const LITTLE_PATIENCE: Patience = {
  adapterMs: 5000,
  findMs: 5000,
  nameMs: 200,
  connectMs: 1500,
  answerMs: 1000,
  reportMs: 600,
  againMs: 800,
  graceMs: 200,
  readings: 6,
  listenMs: 3000,
  checkMs: 20_000,
};

export class ExaminingRoom {
  readonly air: VirtualAir;
  readonly #library: HostLibrary;
  readonly #close: () => Promise<void>;

  private constructor(air: VirtualAir, library: HostLibrary, close: () => Promise<void>) {
    this.air = air;
    this.#library = library;
    this.#close = close;
  }

  static async open(): Promise<ExaminingRoom> {
    const air = new VirtualAir();
    const close = await useVirtualAdapter(air);
    const loaded = await loadHostLibrary();
    if (!loaded.ok) throw new Error(loaded.detail);
    await adapterOn(loaded.library, LITTLE_PATIENCE.adapterMs);
    return new ExaminingRoom(air, loaded.library, close);
  }

  /** A sensor that is placed for this, and gone afterwards. */
  async examineOne(options: VirtualSensorOptions): Promise<Result[]> {
    const { sensor, remove } = placeSensor(this.air, options, {
      intervalMs: 40,
      measuredBefore: 150,
    });
    try {
      return await this.examine(sensor.id);
    } finally {
      remove();
    }
  }

  /** Whichever sensor has this id, or the first one that advertises the service. */
  examine(id: string | null, patience = LITTLE_PATIENCE): Promise<Result[]> {
    const onFound = (): void => undefined;
    const onResult = (): void => undefined;
    const library = this.#library;
    return examine({ library, wanted: { name: null, id }, patience, onFound, onResult });
  }

  async close(): Promise<void> {
    await this.#close();
    this.air.close();
  }
}

/** The names of the checks that came to this. */
export function checksThat(results: readonly Result[], kind: Result['outcome']['kind']): string[] {
  return results.filter(({ outcome }) => outcome.kind === kind).map(({ check }) => check.id);
}
