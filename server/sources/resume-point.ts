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

/** The highest number of a sensor's boot among readings that are not looked at one by one. */
export interface RecordedBefore {
  readonly channel: number;
  readonly boot: number;
  readonly highest: number;
}

/**
 * @param stamps the latest of one recording, in any order
 * @param before of the readings recorded before those: whatever was missed up to there is given up, since
 * what is not known to be recorded could be taken twice
 */
export function resumePoints(
  stamps: readonly RecordedStamp[],
  before: readonly RecordedBefore[] = [],
): ReadonlyMap<number, ResumePoint> {
  const points = new Map<number, ResumePoint>();
  for (const channel of new Set(stamps.map((stamp) => stamp.channel))) {
    const own = stamps.filter((stamp) => stamp.channel === channel);
    const last = own.reduce((latest, stamp) => (stamp.elapsedS > latest.elapsedS ? stamp : latest));
    const numbers = new NumberSet();
    for (const { boot, sequence } of own) {
      if (boot === last.boot) numbers.add(unwrapped(sequence, last.sequence));
    }
    const clockSetAt = lastClockSet(own, last);
    if (clockSetAt !== null) {
      // A reading from before it could not be told from one of after it: that gap stays one.
      numbers.addStretch({ from: numbers.stretches()[0]?.from ?? clockSetAt, to: clockSetAt });
    }
    for (const one of before) {
      if (one.channel !== channel || one.boot !== last.boot) continue;
      const to = unwrapped(one.highest, last.sequence);
      numbers.addStretch({ from: Math.min(numbers.stretches()[0]?.from ?? to, to), to });
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

/** The number of the first reading after the sensor's clock was set back for the last time, or null. */
function lastClockSet(own: readonly RecordedStamp[], last: RecordedStamp): number | null {
  const inOrder = own
    .filter(({ boot }) => boot === last.boot)
    .map(({ sequence, uptimeMs }) => ({
      number: unwrapped(sequence, last.sequence),
      uptimeMs: unwrapped(uptimeMs, last.uptimeMs),
    }))
    .sort((a, b) => a.number - b.number);
  const at = inOrder.findLast(
    ({ uptimeMs }, i) => uptimeMs < (inOrder[i - 1]?.uptimeMs ?? -Infinity),
  );
  return at?.number ?? null;
}
