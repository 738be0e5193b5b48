import { describe, expect, test } from 'vitest';
import { columnsFromReadings } from '../../../protocol/reading.ts';
import type { Reading, ReadingColumns } from '../../../protocol/reading.ts';
import type { ServerMessage } from '../../../protocol/stream.ts';
import { Subscriber } from '../../../server/stream/subscriber.ts';

function readings(first: number, last: number): ReadingColumns {
  return columnsFromReadings(
    Array.from({ length: last - first + 1 }, (_, offset): Reading => {
      const index = first + offset;
      return {
        index,
        channel: 0,
        boot: 1,
        sequence: index,
        elapsedS: index,
        pressurePa: 100,
        temperatureC: null,
        condition: 'ok',
      };
    }),
  );
}

function setUp(recorded: number) {
  let last = recorded;
  let waitingBytes = 0;
  let dropped = false;
  const sent: ServerMessage[] = [];
  const subscriber = new Subscriber(
    {
      marks: () => [],
      sheet: () => [],
      takenBack: () => [],
      seenAlerts: () => [],
      readingsAfter: (_id, after, limit) => readings(after + 1, Math.min(last, after + limit)),
    },
    {
      send: (message) => void sent.push(message),
      waitingBytes: () => waitingBytes,
      drop: () => (dropped = true),
    },
  );
  const indexes = (): number[] =>
    sent.flatMap((message) =>
      message.type === 'backfill' || message.type === 'readings' ? message.columns.index : [],
    );
  return {
    subscriber,
    sent,
    indexes,
    /** A commit: first the record has it, then it is published. */
    record: (count: number, publish = true): void => {
      last += count;
      const columns = readings(last - count + 1, last);
      if (publish) subscriber.publish({ type: 'readings', recordingId: 1, columns });
    },
    slow: () => (waitingBytes = 1e9),
    dropped: () => dropped,
  };
}

const upTo = (last: number): number[] =>
  Array.from({ length: last }, (_, position) => position + 1);

describe('a screen that follows a recording', () => {
  test('gets the missing part in chunks, two ahead, one more for each credit, then live, each reading once', () => {
    const { subscriber, record, indexes, sent } = setUp(17_000);
    subscriber.hear({ type: 'follow', recordingId: 1, afterIndex: 0 });
    expect(indexes()).toHaveLength(10_000);
    record(10);
    expect(indexes()).toHaveLength(10_000);
    subscriber.hear({ type: 'more', recordingId: 1 });
    expect(indexes()).toHaveLength(15_000);
    subscriber.hear({ type: 'more', recordingId: 1 });
    expect(sent.at(-1)).toMatchObject({ type: 'backfill', complete: true });
    // What is owed for the parts before comes to nothing: all is there.
    subscriber.hear({ type: 'more', recordingId: 1 });
    record(5);
    expect(indexes()).toEqual(upTo(17_015));
    expect(sent.filter(({ type }) => type === 'backfill')).toHaveLength(4);
  });

  test('resumes after what it already has', () => {
    const { subscriber, indexes } = setUp(100);
    subscriber.hear({ type: 'follow', recordingId: 1, afterIndex: 90 });
    expect(indexes()).toEqual(upTo(100).slice(90));
  });

  test('does not get twice what was read from the record before it was published', () => {
    const { subscriber, record, indexes } = setUp(3);
    record(2, false);
    subscriber.hear({ type: 'follow', recordingId: 1, afterIndex: 0 });
    subscriber.publish({ type: 'readings', recordingId: 1, columns: readings(4, 5) });
    subscriber.publish({ type: 'readings', recordingId: 1, columns: readings(5, 7) });
    expect(indexes()).toEqual(upTo(7));
  });

  test('hears nothing of readings of another recording, but that there is one', () => {
    const { subscriber, sent, record } = setUp(0);
    record(1);
    expect(sent).toEqual([]);
    subscriber.publish({
      type: 'recording',
      recording: {
        id: 2,
        origin: 'sensor',
        startedAtMs: 0,
        title: '',
        takenFrom: null,
        sensors: [],
        open: true,
      },
    });
    expect(sent).toHaveLength(1);
  });

  test('is dropped when it reads too slowly, so that the bridge’s memory does not grow', () => {
    const { subscriber, record, slow, dropped, indexes } = setUp(0);
    subscriber.hear({ type: 'follow', recordingId: 1, afterIndex: 0 });
    slow();
    record(1);
    expect(dropped()).toBe(true);
    expect(indexes()).toEqual([]);
  });
});
