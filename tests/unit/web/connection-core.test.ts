/** The screen's end of the stream: it misses nothing, needs nothing twice, and notices silence. */
import { describe, expect, test } from 'vitest';
import { type Reading, columnsFromReadings } from '../../../protocol/reading.ts';
import { type ServerMessage, STREAM_VERSION, TICK_INTERVAL_MS } from '../../../protocol/stream.ts';
import {
  type ConnectionEffect,
  type ConnectionEvent,
  initialConnection,
  stepConnection,
} from '../../../web/connection/connection-core.ts';
import { retryDelayMs } from '../../../web/connection/retry-delay.ts';

const hello: ServerMessage = {
  type: 'hello',
  streamVersion: STREAM_VERSION,
  softwareVersion: '1',
  platform: 'linux',
  recordings: [],
  sources: [],
};

function readingsFrom(first: number, last: number) {
  const readings: Reading[] = [];
  for (let index = first; index <= last; index += 1) {
    readings.push({
      index,
      channel: 0,
      boot: 1,
      sequence: index,
      elapsedS: index,
      pressurePa: 50,
      temperatureC: null,
      condition: 'ok',
    });
  }
  return columnsFromReadings(readings);
}

function backfill(first: number, last: number, complete: boolean): ServerMessage {
  return { type: 'backfill', recordingId: 7, columns: readingsFrom(first, last), complete };
}

class Screen {
  nowMs = 1000;
  state = initialConnection(1000);
  effects: readonly ConnectionEffect[] = [];

  send(...events: ConnectionEvent[]): this {
    for (const event of events) {
      const { state, effects } = stepConnection(this.state, event, this.nowMs);
      this.state = state;
      this.effects = effects;
    }
    return this;
  }

  hear(...messages: ServerMessage[]): this {
    return this.send(
      ...messages.map((message) => ({ type: 'message', text: JSON.stringify(message) }) as const),
    );
  }

  sent() {
    return this.effects.flatMap((effect) => (effect.type === 'send' ? [effect.message] : []));
  }

  does() {
    return this.effects.map((effect) => effect.type);
  }
}

function live(): Screen {
  return new Screen()
    .send({ type: 'start' })
    .hear(hello)
    .send({ type: 'follow', recordingId: 7 })
    .hear(backfill(1, 3, true));
}

describe('catching up', () => {
  test('follows from nothing, gives a credit for each chunk, and is live when complete', () => {
    const screen = new Screen().send({ type: 'start' });
    expect(screen.does()).toEqual(['open']);
    screen.hear(hello);
    expect(screen.state.phase).toBe('live');
    screen.send({ type: 'follow', recordingId: 7 });
    expect(screen.sent()).toEqual([{ type: 'follow', recordingId: 7, afterIndex: 0 }]);
    screen.hear(backfill(1, 2, false));
    expect(screen.sent()).toEqual([{ type: 'more', recordingId: 7 }]);
    expect(screen.state.phase).toBe('catching_up');
    screen.hear(backfill(3, 4, true));
    expect(screen.does()).toEqual(['deliver']);
    expect(screen.state.phase).toBe('live');
  });

  test('after a loss it resumes from the last index that it has', () => {
    const screen = live().hear({
      type: 'readings',
      recordingId: 7,
      columns: readingsFrom(4, 9),
    });
    screen.send({ type: 'closed' }, { type: 'retry' }).hear(hello);
    expect(screen.sent()).toEqual([{ type: 'follow', recordingId: 7, afterIndex: 9 }]);
    expect(screen.state.phase).toBe('catching_up');
  });

  test('what belongs to a recording that is no longer followed is left out', () => {
    const screen = live().send({ type: 'follow', recordingId: 8 });
    expect(screen.sent()).toEqual([{ type: 'follow', recordingId: 8, afterIndex: 0 }]);
    screen.hear(backfill(4, 5, false));
    expect(screen.effects).toEqual([]);
    screen.hear({ type: 'readings', recordingId: 7, columns: readingsFrom(6, 6) });
    expect(screen.effects).toEqual([]);
    expect(screen.state.following?.afterIndex).toBe(0);
  });

  test('a recording that is followed already is not asked for again', () => {
    expect(live().send({ type: 'follow', recordingId: 7 }).effects).toEqual([]);
  });

  test('a choice made while the bridge is away is asked for at the greeting', () => {
    const screen = live().send({ type: 'closed' }, { type: 'follow', recordingId: 8 });
    expect(screen.effects).toEqual([]);
    screen.send({ type: 'retry' }).hear(hello);
    expect(screen.sent()).toEqual([{ type: 'follow', recordingId: 8, afterIndex: 0 }]);
  });
});

describe('silence and loss', () => {
  test('more than three ticks without a word is a loss, dated from the last word', () => {
    const screen = live();
    screen.nowMs += 3 * TICK_INTERVAL_MS;
    expect(screen.send({ type: 'clock' }).effects).toEqual([]);
    screen.nowMs += 1;
    expect(screen.send({ type: 'clock' }).does()).toEqual(['close', 'retry_in']);
    expect(screen.state.phase).toBe('lost');
    expect(screen.state.sinceMs).toBe(1000);
  });

  test('a tick is a word', () => {
    const screen = live();
    screen.nowMs += 3 * TICK_INTERVAL_MS;
    screen.hear({ type: 'tick' });
    screen.nowMs += TICK_INTERVAL_MS;
    expect(screen.send({ type: 'clock' }).effects).toEqual([]);
  });

  test('failed tries wait longer and longer, make the loss no younger, and one timer runs', () => {
    const screen = live().send({ type: 'closed' });
    const { sinceMs } = screen.state;
    const delays: number[] = [];
    for (let attempt = 0; attempt < 3; attempt += 1) {
      screen.nowMs += 500;
      screen.send({ type: 'retry' }, { type: 'closed' });
      for (const effect of screen.effects) {
        if (effect.type === 'retry_in') delays.push(effect.delayMs);
      }
      expect(screen.send({ type: 'closed' }).effects).toEqual([]);
    }
    expect(delays).toEqual([retryDelayMs(1), retryDelayMs(2), retryDelayMs(3)]);
    expect(screen.state.sinceMs).toBe(sinceMs);
    screen.send({ type: 'retry' }).hear(hello);
    expect(screen.state.failedAttempts).toBe(0);
  });

  test('a try that neither opens nor fails is given up as well', () => {
    const screen = live().send({ type: 'closed' }, { type: 'retry' });
    screen.nowMs += 3 * TICK_INTERVAL_MS + 1;
    expect(screen.send({ type: 'clock' }).does()).toEqual(['close', 'retry_in']);
  });

  test('the wait has an upper end', () => {
    expect(retryDelayMs(0)).toBe(250);
    expect(retryDelayMs(1)).toBe(500);
    expect(retryDelayMs(5000)).toBe(10_000);
  });
});

describe('what is not understood', () => {
  test('another version asks for a reload and delivers nothing', () => {
    const screen = new Screen().send({ type: 'start' });
    screen.hear({ ...hello, streamVersion: STREAM_VERSION + 1 });
    expect(screen.does()).toEqual(['close', 'reload', 'retry_in']);
    expect(screen.effects).toContainEqual({ type: 'reload', streamVersion: STREAM_VERSION + 1 });
  });

  test('of another version it says so, until that bridge is silent or one of its own is there', () => {
    const other = { ...hello, streamVersion: STREAM_VERSION + 1 };
    const screen = new Screen().send({ type: 'start' }).hear(other);
    expect([screen.state.phase, screen.state.otherVersion]).toEqual(['lost', true]);
    expect(screen.send({ type: 'retry' }).state.otherVersion).toBe(true);
    expect(screen.send({ type: 'closed' }).state.otherVersion).toBe(false);
    expect(screen.send({ type: 'retry' }).hear(other).state.otherVersion).toBe(true);
    screen.send({ type: 'retry' }).hear(hello);
    expect([screen.state.phase, screen.state.otherVersion]).toEqual(['live', false]);
  });

  test('another version asks for a reload even where its greeting says more than this one knows', () => {
    const screen = new Screen().send({ type: 'start' });
    const text = JSON.stringify({ type: 'hello', streamVersion: STREAM_VERSION + 1, weather: [] });
    screen.send({ type: 'message', text });
    expect(screen.does()).toContain('reload');
    expect(screen.state.misunderstood).toBe(false);
  });

  test.each(['{', '{"type":"news"}', '{"type":"backfill","recordingId":7}'])(
    '%s is no reason to go on with a hole',
    (text) => {
      const screen = live().send({ type: 'message', text });
      expect(screen.does()).toEqual(['close', 'retry_in']);
      expect(screen.state.misunderstood).toBe(true);
      expect(screen.state.following?.afterIndex).toBe(3);
    },
  );
});
