/** What a bridge would record of what its radio hears: the feed in earnest, the record as a list. */
import type { ReceivedReading } from '../../protocol/reading.ts';
import { Feed, type Ledger } from '../../server/sources/feed.ts';
import { RadioRig, type RigOptions } from './radio-rig.ts';

export interface RecordedRig {
  readonly rig: RadioRig;
  readonly recorded: readonly ReceivedReading[];
  /** From now on readings arrive by this clock, ms: for sensors whose time runs faster than the world's. */
  readonly arriveBy: (clock: () => number) => void;
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
  let clock: (() => number) | null = null;
  rig.source.start({
    sensor: (identity) => {
      feed.sensor(identity);
      ear.sensor(identity);
    },
    reading: (raw) => {
      feed.reading(clock === null ? raw : { ...raw, arrivedMs: clock() });
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
  const arriveBy = (by: () => number): void => {
    clock = by;
  };
  return { rig, recorded, arriveBy, until };
}
