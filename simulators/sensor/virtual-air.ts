/** The space between virtual controllers: whoever is in it hears everybody else. */
import { VirtualController, type Surroundings } from './virtual-controller.ts';

export interface VirtualAirOptions {
  readonly advertisingIntervalMs?: number;
  readonly signalDbm?: number;
}

export class VirtualAir implements Surroundings {
  signalDbm: number;
  acceptsConnections = true;
  readonly advertisingIntervalMs: number;
  readonly #controllers = new Set<VirtualController>();

  constructor({ advertisingIntervalMs = 20, signalDbm = -55 }: VirtualAirOptions = {}) {
    this.advertisingIntervalMs = advertisingIntervalMs;
    this.signalDbm = signalDbm;
  }

  createController(): VirtualController {
    // 00:00:5E is the block that RFC 7042, section 2.1 sets aside for documentation and tests.
    const place = (this.#controllers.size + 1).toString(16).padStart(2, '0');
    const controller = new VirtualController(this, `00:00:5e:00:53:${place}`);
    this.#controllers.add(controller);
    return controller;
  }

  *others(than: VirtualController): Iterable<VirtualController> {
    for (const controller of this.#controllers) if (controller !== than) yield controller;
  }

  /** Ends every link and every timer. */
  close(): void {
    for (const controller of this.#controllers) controller.detach();
    this.#controllers.clear();
  }
}
