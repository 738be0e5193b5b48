/** What a bridge would record of what its radio hears: the feed in earnest, the record as a list. */
import type { ReceivedReading } from '../../protocol/reading.ts';
import { Feed, type Ledger } from '../../server/sources/feed.ts';
import { READING_FIELDS } from '../../protocol/profile.ts';
import { decode } from '../../protocol/profile-codec.ts';
import type { RawReading } from '../../server/sources/source.ts';
import { RadioRig, type RigOptions } from './radio-rig.ts';

export interface RecordedRig {
  readonly rig: RadioRig;
  readonly recorded: readonly ReceivedReading[];
  /**
   * From now on a reading that is heard arrives when it was measured, by the sensor's clock: for sensors
   * whose time runs faster than the world's.
   */
  readonly arriveAtOnce: () => void;
  /** Resolves when so many readings have been recorded. */
  readonly until: (count: number, limitMs?: number) => Promise<void>;
}

export async function recordedRig(options: RigOptions = {}): Promise<RecordedRig> {
  const rig = await RadioRig.create(options);
  const recorded: ReceivedReading[] = [];
  const ledger: Ledger = {
    begin: () => 1,
    end: () => undefined,
    sensor: () => undefined,
    readings: (_, readings) => void recorded.push(...readings),
    mark: (_, mark, madeBy) => Promise.resolve({ ...mark, id: 1, madeBy }),
  };
  const feed = new Feed({
    ledger,
    origin: 'sensor',
    title: '',
    marksMadeBy: 'hand',
    wallClock: Date.now,
    onState: () => undefined,
    unfinished: null,
  });
  const { ear } = rig;
  let atOnce = false;
  let latestMs = 0;
  const measuredMs = ({ bytes, fetched, arrivedMs }: RawReading): number => {
    const decoded = decode(READING_FIELDS, bytes);
    if (!decoded.ok) return arrivedMs;
    if (fetched !== true) latestMs = Math.max(latestMs, decoded.values.uptimeMs);
    return latestMs;
  };
  rig.source.start({
    sensor: (identity) => {
      feed.sensor(identity);
      ear.sensor(identity);
    },
    reading: (raw) => {
      feed.reading(atOnce ? { ...raw, arrivedMs: measuredMs(raw) } : raw);
      ear.reading(raw);
    },
    mark: (mark) => feed.mark(mark),
    state: (state) => {
      feed.state(state);
      ear.state(state);
    },
  });
  const until = (count: number, limitMs?: number) =>
    ear.until(`${count} recorded readings`, () => recorded.length >= count, limitMs);
  const arriveAtOnce = (): void => {
    atOnce = true;
  };
  return { rig, recorded, arriveAtOnce, until };
}
