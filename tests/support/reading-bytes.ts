/** The bytes that a sensor following the profile would send. */
import { READING_FIELDS } from '../../protocol/profile.ts';
import { encode } from '../../protocol/profile-codec.ts';
import type { Values } from '../../protocol/profile-codec.ts';

type Change = Partial<Omit<Values<typeof READING_FIELDS>, 'flags'>> & {
  readonly flags?: Partial<Values<typeof READING_FIELDS>['flags']>;
};

export function readingBytes({ flags, ...change }: Change = {}): Uint8Array {
  return encode(READING_FIELDS, {
    boot: 1,
    sequence: 0,
    uptimeMs: 0,
    pressurePa: 100,
    temperatureC: 20,
    ...change,
    flags: {
      overRange: false,
      underRange: false,
      warmingUp: false,
      fault: false,
      timeReset: false,
      ...flags,
    },
  });
}
