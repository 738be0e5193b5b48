/**
 * Makes readings of what an Environmental Sensing Service says, in the bytes that a sensor of our profile
 * would send: so they take the same way as any. Number and clock, which that service lacks, are ours: the
 * boot is the connection, and the time that of arrival.
 */
import {
  READING_FIELDS,
  STANDARD_PRESSURE_FIELDS,
  STANDARD_TEMPERATURE_FIELDS,
} from '../../../protocol/profile.ts';
import { decode, encode } from '../../../protocol/profile-codec.ts';
import { monotonicMs } from './monotonic-clock.ts';

/** A mPa less would be 'not known': the profile's largest pressure, Pa. */
const HIGHEST_PA = 4_294_967;

export class StandardReadings {
  readonly #boot = Math.floor(Math.random() * 0x10000);
  readonly #beganMs = monotonicMs();
  #sequence = 0;
  #temperatureC: number | null = null;

  /** @param bytes of the Temperature characteristic, or null where there is none */
  temperature(bytes: Uint8Array | null): void {
    const decoded = bytes && decode(STANDARD_TEMPERATURE_FIELDS, bytes);
    this.#temperatureC = decoded?.ok === true ? decoded.values.temperatureC : null;
  }

  /** @returns a reading; bytes that are no pressure as they are, to be refused like any others */
  reading(bytes: Uint8Array): Uint8Array {
    const decoded = decode(STANDARD_PRESSURE_FIELDS, bytes);
    if (!decoded.ok) return bytes;
    const { pressurePa } = decoded.values;
    const sequence = this.#sequence;
    this.#sequence += 1;
    const isTooHigh = pressurePa > HIGHEST_PA;
    return encode(READING_FIELDS, {
      flags: {
        overRange: isTooHigh,
        underRange: false,
        warmingUp: false,
        fault: false,
        timeReset: false,
      },
      boot: this.#boot,
      sequence,
      uptimeMs: Math.round(monotonicMs() - this.#beganMs) % 2 ** 32,
      pressurePa: isTooHigh ? null : pressurePa,
      temperatureC: this.#temperatureC,
    });
  }
}
