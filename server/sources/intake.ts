/** The one way in: from the bytes of the Reading characteristic to a reading with its place in time. */
import { READING_FIELDS } from '../../protocol/profile.ts';
import { decode } from '../../protocol/profile-codec.ts';
import type { Unreadable, Values } from '../../protocol/profile-codec.ts';
import type { Condition, ReceivedReading } from '../../protocol/reading.ts';
import type { ResumePoint } from './resume-point.ts';
import { Timeline } from './timeline.ts';

type Taken =
  | { readonly kind: 'reading'; readonly reading: ReceivedReading }
  | { readonly kind: 'duplicate' | 'unplaceable' }
  | { readonly kind: 'unreadable'; readonly why: Unreadable };

/** One sensor's readings, in the order in which they arrive, those fetched later among them. */
export class Intake {
  readonly #channel: number;
  readonly #timeline: Timeline;

  /** @param resumed where the sensor's readings stood when the bridge ended */
  constructor(channel: number, resumed: ResumePoint | null = null) {
    this.#channel = channel;
    this.#timeline = new Timeline(resumed);
  }

  /** How much faster than this computer's the sensor's clock runs, per cent; 0 where it is believed. */
  get clockFastPercent(): number {
    return 100 * (1 / this.#timeline.rate - 1);
  }

  /**
   * @param arrivedS when the bytes arrived, seconds on the recording's time axis
   * @param fetched they had been kept by the sensor and were asked for
   */
  take(bytes: Uint8Array, arrivedS: number, fetched = false): Taken {
    const decoded = decode(READING_FIELDS, bytes);
    if (!decoded.ok) return { kind: 'unreadable', why: decoded };
    const { values } = decoded;
    const stamp = { ...values, timeReset: values.flags.timeReset };
    const placed = fetched
      ? this.#timeline.placeFetched(stamp)
      : this.#timeline.placeHeard(stamp, arrivedS);
    if (placed.kind !== 'placed') return { kind: placed.kind };
    const condition = conditionOf(values);
    return {
      kind: 'reading',
      reading: {
        channel: this.#channel,
        boot: values.boot,
        sequence: values.sequence,
        uptimeMs: values.uptimeMs,
        arrivedS,
        elapsedS: placed.elapsedS,
        pressurePa: isMeasured(condition) ? values.pressurePa : null,
        temperatureC: values.temperatureC,
        condition,
      },
    };
  }
}

/** A fault outweighs everything; a number beside 'over range' is the end of the scale, not a pressure. */
function conditionOf({ flags, pressurePa }: Values<typeof READING_FIELDS>): Condition {
  if (flags.fault) return 'fault';
  if (flags.overRange) return 'over_range';
  if (flags.underRange) return 'under_range';
  if (pressurePa === null) return 'fault';
  return flags.warmingUp ? 'warming_up' : 'ok';
}

function isMeasured(condition: Condition): boolean {
  return condition === 'ok' || condition === 'warming_up';
}
