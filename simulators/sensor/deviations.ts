/** Where a sensor can be made to break the profile's rules, for tests; see `rule-breakers.ts`. */
import type { READING_FIELDS } from '../../protocol/profile.ts';
import type { Values } from '../../protocol/profile-codec.ts';
import type { ServiceDefinition } from './service-definition.ts';

export type Reading = Values<typeof READING_FIELDS>;

export interface Deviations {
  /** What a measurement says in place of what it should. */
  readonly reading?: (right: Reading) => Reading;
  /** Its bytes, as they are kept and sent. */
  readonly readingBytes?: (right: Uint8Array) => Uint8Array;
  /** How often each measurement is notified; once is right. */
  readonly notifications?: number;
  /** What reading the latest measurement shows, out of all so far, the first one first. */
  readonly shown?: (all: readonly Uint8Array[]) => Uint8Array | undefined;
  readonly capabilitiesBytes?: (right: Uint8Array) => Uint8Array;
  /** So many times the interval that it claims pass between two measurements; 1 is right. */
  readonly slowness?: number;
  readonly services?: (right: readonly ServiceDefinition[]) => ServiceDefinition[];
  /** The readings of a report. */
  readonly report?: (right: readonly Uint8Array[]) => readonly Uint8Array[];
  /** The answer at the control point; null: none. */
  readonly answer?: (right: Uint8Array) => Uint8Array | null;
  /** The ATT error of a write to the control point, or undefined for none. */
  readonly accessError?: (right: number | undefined) => number | undefined;
  /** Control takes the interval and goes on as before. */
  readonly ignoresInterval?: boolean;
  readonly ignoresAbort?: boolean;
  /** How many readings it keeps, whatever it says. */
  readonly keeps?: number;
  /** The boot id stays over a restart. */
  readonly keepsBoot?: boolean;
  /** The boot id changes with every new link. */
  readonly changesBootWithLink?: boolean;
}
