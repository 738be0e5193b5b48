/** Where a sensor's readings stood when the bridge ended, so that none is taken twice and none is missed. */
import { NumberSet, type Stretch } from './number-set.ts';
import { unwrapped } from './wrapping.ts';

/** Of one sensor, within its latest boot. */
export interface ResumePoint {
  readonly boot: number;
  /** What has been recorded: numbers that never wrap. */
  readonly numbers: readonly Stretch[];
  /** The last reading by data time: its number (as above), its uptime (likewise), and where it lies. */
  readonly lastNumber: number;
  readonly lastUptimeMs: number;
  readonly lastElapsedS: number;
}

/** What the record keeps of a reading's place. */
export interface RecordedStamp {
  readonly channel: number;
  readonly boot: number;
  readonly sequence: number;
  readonly uptimeMs: number;
  readonly elapsedS: number;
}

/** @param stamps the latest of one recording, in any order */
export function resumePoints(stamps: readonly RecordedStamp[]): ReadonlyMap<number, ResumePoint> {
  const points = new Map<number, ResumePoint>();
  for (const channel of new Set(stamps.map((stamp) => stamp.channel))) {
    const own = stamps.filter((stamp) => stamp.channel === channel);
    const last = own.reduce((latest, stamp) => (stamp.elapsedS > latest.elapsedS ? stamp : latest));
    const numbers = new NumberSet();
    for (const { boot, sequence } of own) {
      if (boot === last.boot) numbers.add(unwrapped(sequence, last.sequence));
    }
    points.set(channel, {
      boot: last.boot,
      numbers: numbers.stretches(),
      lastNumber: last.sequence,
      lastUptimeMs: last.uptimeMs,
      lastElapsedS: last.elapsedS,
    });
  }
  return points;
}
