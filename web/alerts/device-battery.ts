/** The battery of the computer or phone that shows this page, where its browser tells. */
import { signal } from '@preact/signals';
import { z } from 'zod';

export interface DeviceBattery {
  readonly percent: number;
  readonly charging: boolean;
}

/** Null where nobody can say. */
export const deviceBattery = signal<DeviceBattery | null>(null);

/** Battery Status API, W3C: a fraction, and whether it is being charged. Not every browser has it. */
const batterySchema = z.looseObject({ level: z.number().min(0).max(1), charging: z.boolean() });
const EVENTS = ['levelchange', 'chargingchange'];

export async function watchDeviceBattery(): Promise<void> {
  try {
    const ask: unknown = Reflect.get(navigator, 'getBattery');
    if (typeof ask !== 'function') return;
    const battery: unknown = await Reflect.apply(ask, navigator, []);
    const look = () => {
      const { level, charging } = batterySchema.parse(battery);
      deviceBattery.value = { percent: 100 * level, charging };
    };
    look();
    if (battery instanceof EventTarget) {
      for (const event of EVENTS) battery.addEventListener(event, look);
    }
  } catch {
    // A browser that will not tell says nothing, and so does the page.
  }
}
