/** What a rehearsal does with a radio that falls silent and a sensor that starts anew. */
import { describe, expect, it } from 'vitest';
import type { ReceivedReading } from '../../../protocol/reading.ts';
import { Feed } from '../../../server/sources/feed.ts';
import type { Scenario } from '../../../simulators/scenarios/scenario.ts';
import { DRY, started } from '../../support/heard-rehearsal.ts';

const SILENCES = [
  { fromS: 30, durationS: 20 },
  { fromS: 85, durationS: 10 },
];
/** The second restart falls into the second silence. */
const RESTARTS_AT_S = [60, 90];

function withRadio(change: Partial<Scenario['radio']>): Scenario {
  return { ...DRY, radio: { ...DRY.radio, ...change } };
}

const FAULTY = withRadio({ silences: SILENCES, restartsAtS: RESTARTS_AT_S });

const heardAt = (elapsedS: number): boolean =>
  SILENCES.every(({ fromS, durationS }) => elapsedS < fromS || elapsedS >= fromS + durationS);
const SECONDS = Array.from({ length: 121 }, (_, second) => second);

describe('a radio that falls silent', () => {
  it('leaves a gap: those readings never arrive, and all others do', () => {
    const { clock, heard } = started({ scenario: FAULTY });
    clock.pass(120_000);
    expect(heard.raw.map(({ arrivedMs }) => arrivedMs / 1000)).toEqual(SECONDS.filter(heardAt));
  });

  it('has lost its sensor meanwhile, and says each once', () => {
    const { clock, heard } = started({ scenario: FAULTY });
    clock.pass(120_000);
    const beganMs = heard.states[0]?.sinceMs ?? NaN;
    const told = heard.states.map(({ phase, sinceMs }) => [phase, (sinceMs - beganMs) / 1000]);
    expect(told).toEqual([
      ['live', 0],
      ['lost', 30],
      ['live', 50],
      ['lost', 85],
      ['live', 95],
    ]);
  });

  it('keeps the helper from doing what only a reading could tell', () => {
    const whole = started({ rate: 120 });
    whole.clock.pass(60_000);
    const closedS = whole.heard.marks.find(({ kind }) => kind === 'ballast_closed')?.elapsedS;
    if (closedS === undefined) throw new Error('the ballast was never closed');
    const deaf = withRadio({ silences: [{ fromS: closedS - 5, durationS: 100 }] });
    const { clock, heard } = started({ scenario: deaf, rate: 120 });
    clock.pass(60_000);
    expect(heard.marks.find(({ kind }) => kind === 'ballast_closed')?.elapsedS).toBe(closedS + 95);
  });

  it('changes nothing about the readings that do arrive', () => {
    const whole = started({ seed: 9 });
    const holed = started({ seed: 9, scenario: withRadio({ silences: SILENCES }) });
    for (const { clock } of [whole, holed]) clock.pass(120_000);
    expect(holed.heard.decoded()).toEqual(
      whole.heard.decoded().filter((_, second) => heardAt(second)),
    );
  });
});

describe('a sensor that starts anew', () => {
  it('has another boot, and its count and clock begin again', () => {
    const { clock, heard } = started({ scenario: FAULTY, seed: 0xffff });
    clock.pass(120_000);
    const values = heard.decoded();
    const told = [29, 59, 60, 84, 95, 120].map((elapsedS) => {
      const { boot, sequence, uptimeMs } =
        values[heard.raw.findIndex(({ arrivedMs }) => arrivedMs === elapsedS * 1000)] ?? {};
      return [elapsedS, boot, sequence, uptimeMs];
    });
    // A boot id is 16 bits wide and wraps.
    expect(told).toEqual([
      [29, 0xffff, 29, 74_000],
      [59, 0xffff, 59, 104_000],
      [60, 0, 0, 0],
      [84, 0, 24, 24_000],
      [95, 1, 5, 5000],
      [120, 1, 30, 30_000],
    ]);
  });

  it('keeps its place in the recording’s time', () => {
    const readings: ReceivedReading[] = [];
    const feed = new Feed({
      ledger: {
        begin: () => 1,
        end: () => undefined,
        sensor: () => undefined,
        readings: (_id, batch) => void readings.push(...batch),
        mark: (_id, mark, madeBy) => Promise.resolve({ ...mark, id: 1, madeBy }),
      },
      origin: 'rehearsal',
      title: '',
      marksMadeBy: 'rehearsal',
      wallClock: () => 0,
      onState: () => undefined,
      unfinished: null,
    });
    const { clock, heard } = started({ scenario: FAULTY });
    clock.pass(120_000);
    for (const raw of heard.raw) feed.reading(raw);
    expect(readings.map(({ elapsedS }) => elapsedS)).toEqual(SECONDS.filter(heardAt));
    expect(new Set(readings.map(({ boot }) => boot)).size).toBe(3);
  });
});

it('shows the sensor’s battery going down', () => {
  const scenario = withRadio({ batteryPercent: 12.6, batteryPercentPerHour: 60 });
  const { clock, heard } = started({ scenario });
  clock.pass(120_000);
  expect(heard.states.map(({ batteryPercent }) => batteryPercent)).toEqual([13, 12, 11]);
});
