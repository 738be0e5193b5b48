/** Section 5 and 11: what it says of itself. */
import {
  CAPABILITIES_FIELDS,
  PROFILE_VERSION,
  RECORD_ACCESS_UUID,
} from '../../../protocol/profile.ts';
import { decode, encodedLength } from '../../../protocol/profile-codec.ts';
import { hex } from './bytes.ts';
import { expect } from './check-errors.ts';
import type { Check } from './check.ts';
import type { Capabilities } from './visit.ts';

const LENGTH = encodedLength(CAPABILITIES_FIELDS);

export const CAPABILITIES_CHECKS: readonly Check[] = [
  {
    id: 'capabilities-length',
    section: '5',
    level: 'must',
    what: `Capabilities are ${LENGTH} bytes; later minor versions may add some.`,
    attempt: async (visit) => {
      const bytes = await visit.capabilitiesBytes();
      const isLater = (bytes[1] ?? 0) > PROFILE_VERSION.minor;
      const isRight = bytes.length === LENGTH || (isLater && bytes.length > LENGTH);
      expect(isRight, `${LENGTH} bytes`, `${bytes.length}: ${hex(bytes)}`);
      return undefined;
    },
  },
  {
    id: 'capabilities-version',
    section: '11',
    level: 'must',
    what: `It speaks major version ${PROFILE_VERSION.major}.`,
    attempt: async (visit) => {
      const [major = NaN, minor = NaN] = await visit.capabilitiesBytes();
      expect(major === PROFILE_VERSION.major, String(PROFILE_VERSION.major), String(major));
      return `${major}.${minor}`;
    },
  },
  {
    id: 'capabilities-values',
    section: '5',
    level: 'must',
    what: 'Every value of Capabilities has a meaning, and they go together.',
    attempt: async (visit) => {
      const bytes = await visit.capabilitiesBytes();
      if (bytes.length >= LENGTH) {
        const decoded = decode(CAPABILITIES_FIELDS, bytes);
        expect(decoded.ok, 'known values', decoded.ok ? '' : decoded.detail);
      }
      const values = await visit.capabilities();
      expectRange(values);
      expectDate(values);
      const { intervalMs, shortestIntervalMs } = values;
      expect(shortestIntervalMs > 0, 'a shortest interval above 0 ms', '0');
      expect(
        intervalMs >= shortestIntervalMs,
        `an interval of at least the shortest, ${shortestIntervalMs} ms`,
        `${intervalMs} ms`,
      );
      return undefined;
    },
  },
  {
    id: 'buffer-depth',
    section: '3',
    level: 'must',
    what: 'It says a bufferDepth above 0 where it offers stored readings, and 0 where it does not.',
    attempt: async (visit) => {
      const { bufferDepth } = await visit.capabilities();
      const offers = visit.peer.propertiesOf(RECORD_ACCESS_UUID) !== null;
      const wanted = offers ? 'more than 0, as it has the control point' : '0, as it has none';
      expect(bufferDepth > 0 === offers, wanted, String(bufferDepth));
      return String(bufferDepth);
    },
  },
];

function expectRange({ rangeLowPa, rangeHighPa }: Capabilities): void {
  if (rangeLowPa === null || rangeHighPa === null) return;
  expect(
    rangeHighPa > rangeLowPa,
    'a range whose upper end is above its lower end',
    `${rangeLowPa} to ${rangeHighPa} Pa`,
  );
}

/** Known as a whole or not at all, and a day that there is. */
function expectDate({ calibrationYear, calibrationMonth, calibrationDay }: Capabilities): void {
  const parts = [calibrationYear, calibrationMonth, calibrationDay];
  if (parts.every((part) => part === null)) return;
  const said = parts.map((part) => part ?? 'not known').join('-');
  const [year = null, month = null, day = null] = parts;
  const isDate =
    year !== null &&
    month !== null &&
    day !== null &&
    new Date(Date.UTC(year, month - 1, day)).getUTCDate() === day;
  expect(isDate, 'a date that there is, or none at all', said);
}
