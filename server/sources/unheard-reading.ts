/**
 * The bytes of a reading that no sensor sent: simulated, imported or typed in. They are those that a
 * sensor would send, so that every reading takes the same way from the first decoder on.
 *
 * What survives is what the profile can carry: pressure to 1 mPa up to 4.29 MPa, temperature to
 * 0.01 °C within ±327.67 °C, time to 1 ms.
 */
import { READING_FIELDS } from '../../protocol/profile.ts';
import { encode } from '../../protocol/profile-codec.ts';
import type { Values } from '../../protocol/profile-codec.ts';

/** @throws RangeError where a value does not fit its field */
export function unheardReading(values: Omit<Values<typeof READING_FIELDS>, 'flags'>): Uint8Array {
  return encode(READING_FIELDS, {
    ...values,
    flags: {
      overRange: values.pressurePa === null,
      underRange: false,
      warmingUp: false,
      fault: false,
      timeReset: false,
    },
  });
}
