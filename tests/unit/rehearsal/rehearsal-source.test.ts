import { describe, expect, it } from 'vitest';
import { REHEARSAL_ACTIONS, REHEARSAL_RATES } from '../../../protocol/api.ts';
import type { MarkKind } from '../../../protocol/mark.ts';
import { ProblemError } from '../../../protocol/problems.ts';
import { listRehearsals } from '../../../server/sources/rehearsal/list-rehearsals.ts';
import { RehearsalSource } from '../../../server/sources/rehearsal/rehearsal-source.ts';
import { scenarioNamed } from '../../../server/sources/rehearsal/scenario-named.ts';
import { ALL_SCENARIOS } from '../../../simulators/scenarios/all-scenarios.ts';
import { play } from '../../../simulators/scenarios/play.ts';
import { HandClock } from '../../support/hand-clock.ts';
import { DRY, started } from '../../support/heard-rehearsal.ts';

function problemOf(call: () => void): ProblemError | null {
  try {
    call();
    return null;
  } catch (error) {
    if (error instanceof ProblemError) return error;
    throw error;
  }
}

describe('the list of rehearsals', () => {
  it('shows cards and nothing else', () => {
    const cards = listRehearsals();
    expect(cards.map(({ name }) => name)).toEqual([
      ...ALL_SCENARIOS.map(({ card }) => card.name),
      ...['generated-plain', 'generated-mixed', 'generated-hard'],
    ]);
    for (const card of cards)
      expect(Object.keys(card).sort()).toEqual(['name', 'place', 'situation']);
  });

  it('refuses a name that is not on it, and says which are', () => {
    const start = (): unknown => scenarioNamed('nowhere');
    expect(start).toThrow(ProblemError);
    expect(start).toThrow(/nowhere.*quarry-road-bakery/u);
  });
});

describe('a rehearsal as a source', () => {
  it('names its sensor, is live and sends its first reading at once', () => {
    const { heard } = started();
    expect(heard.identities).toHaveLength(1);
    expect(heard.states.map(({ kind, phase, clockRate }) => [kind, phase, clockRate])).toEqual([
      ['rehearsal', 'live', 1],
    ]);
    expect(heard.raw.map(({ arrivedMs }) => arrivedMs)).toEqual([0]);
    expect(heard.raw[0]?.sensorId).toBe(heard.identities[0]?.id);
  });

  it.each(REHEARSAL_RATES)('sends one reading for each second of data time at ×%d', (rate) => {
    const { clock, heard } = started({ rate });
    clock.pass(5000);
    expect(heard.raw).toHaveLength(5 * rate + 1);
    expect(heard.raw.at(-1)?.arrivedMs).toBe(5000 * rate);
  });

  it('sends the bytes of a sensor: numbered, timed, over range at first', () => {
    const { clock, heard } = started({ rate: 60 });
    clock.pass(2000);
    const values = heard.decoded();
    const first = values[0];
    if (!first) throw new Error('there is no reading');
    expect(first.flags.overRange).toBe(true);
    expect(first.pressurePa).toBeNull();
    for (const [position, value] of values.entries()) {
      expect(value.boot).toBe(first.boot);
      expect(value.sequence).toBe(position);
      expect(value.uptimeMs - first.uptimeMs).toBe(position * 1000);
      expect(value.pressurePa === null).toBe(value.flags.overRange);
    }
    const last = values.at(-1);
    expect(last?.pressurePa).toBeGreaterThan(100);
    expect(last?.pressurePa).toBeLessThan(400);
    expect(last?.temperatureC).toBeCloseTo(21, 0);
  });

  it.each(ALL_SCENARIOS.map((scenario) => [scenario.card.name, scenario] as const))(
    'sends to its end what `play` gives, helper and all: %s',
    (_name, scenario) => {
      const { clock, heard } = started({ scenario, seed: 5, rate: 120 });
      clock.pass(60_000);
      const played = play(scenario, 5);
      expect(heard.marks).toEqual(played.marks);
      const rows = played.rows.filter((row) => row.heard);
      expect(heard.raw).toHaveLength(rows.length);
      const values = heard.decoded();
      expect(values.map(({ temperatureC }) => temperatureC)).toEqual(
        rows.map(({ temperatureC }) => temperatureC),
      );
      for (const [position, { pressurePa }] of rows.entries()) {
        const sent = values[position]?.pressurePa;
        if (pressurePa === null) expect(sent).toBeNull();
        else expect(sent).toBeCloseTo(pressurePa, 2);
      }
      expect(heard.states.at(-1)?.phase).toBe('finished');
      expect(clock.running).toBe(0);
    },
  );

  it('is over a minute after the hold of a quarter of an hour', () => {
    const { clock, heard } = started({ rate: 120 });
    clock.pass(60_000);
    const isolated = heard.marks.find(({ kind }) => kind === 'isolated');
    expect((heard.raw.at(-1)?.arrivedMs ?? 0) / 1000 - (isolated?.elapsedS ?? 0)).toBe(16 * 60);
  });

  it('is over after six hours where nobody does anything', () => {
    const { clock, heard } = started({ rate: 120, helper: false });
    clock.pass((6 * 3600 * 1000) / 120 + 1000);
    expect(heard.raw.at(-1)?.arrivedMs).toBe(6 * 3600 * 1000);
    expect(heard.marks).toEqual([]);
    expect(heard.states.at(-1)?.phase).toBe('finished');
  });
});

describe('steering a rehearsal', () => {
  it('works pump and valves by hand, each with its mark', () => {
    const { clock, source, heard } = started({ rate: 60, helper: false });
    clock.pass(1000);
    source.steer({ action: 'pump_on' });
    clock.pass(1000);
    source.steer({ action: 'ballast_close' });
    clock.pass(5000);
    source.steer({ action: 'isolate' });
    clock.pass(1000);
    source.steer({ action: 'reopen' });
    source.steer({ action: 'ballast_open' });
    source.steer({ action: 'pump_off' });
    expect(heard.marks).toEqual([
      { kind: 'pump_on', elapsedS: 60, text: '' },
      { kind: 'ballast_closed', elapsedS: 120, text: '' },
      { kind: 'isolated', elapsedS: 420, text: '' },
      { kind: 'reopened', elapsedS: 480, text: '' },
      { kind: 'ballast_opened', elapsedS: 480, text: '' },
      { kind: 'pump_off', elapsedS: 480, text: '' },
    ]);
    const values = heard.decoded();
    expect(values[60]?.pressurePa).toBeNull();
    expect(values[420]?.pressurePa).toBeLessThan(100);
  });

  it('says so where an action changes nothing, marks nothing and does nothing else', () => {
    const { source, heard } = started({ helper: false });
    const states = heard.states.length;
    for (const action of ['pump_off', 'ballast_open', 'reopen', 'shut_stub'] as const) {
      const act = (): void => source.steer({ action, rate: 120, paused: true });
      expect(problemOf(act)).toMatchObject({ code: 'no_effect', detail: action });
    }
    expect(heard.marks).toEqual([]);
    expect(heard.states).toHaveLength(states);
  });

  it('knows every action: it leaves a mark, or says that this rig lacks the part', () => {
    const marks = REHEARSAL_ACTIONS.flatMap((action) => {
      const { source, heard } = started({ helper: false });
      const problem = problemOf(() => source.steer({ action }));
      if (problem === null) expect(heard.marks).toHaveLength(1);
      else expect(problem).toMatchObject({ code: 'no_effect' });
      return heard.marks.map(({ kind }) => kind);
    });
    expect(new Set(marks)).toEqual(
      new Set<MarkKind>([
        'pump_on',
        'ballast_closed',
        'isolated',
        'cores_out',
        'oil_changed',
        'battery_changed',
        'joints_tightened',
        'nitrogen_break',
      ]),
    );
  });

  it('changes speed from now on', () => {
    const { clock, source, heard } = started();
    clock.pass(10_000);
    source.steer({ rate: 20 });
    expect(heard.states.at(-1)).toMatchObject({ phase: 'live', clockRate: 20 });
    clock.pass(10_000);
    expect(heard.raw).toHaveLength(1 + 10 + 200);
  });

  it('pauses and goes on without a gap', () => {
    const { clock, source, heard } = started({ rate: 5 });
    clock.pass(2000);
    source.steer({ paused: true });
    clock.pass(3_600_000);
    expect(heard.raw).toHaveLength(11);
    expect(heard.states.at(-1)).toMatchObject({ phase: 'paused', sinceMs: 1_700_000_002_000 });
    source.steer({ paused: false });
    clock.pass(1000);
    expect(heard.raw.map(({ arrivedMs }) => arrivedMs)).toEqual(
      Array.from({ length: 16 }, (_, second) => second * 1000),
    );
    expect(heard.marks).toEqual([]);
  });

  it('is heeded no more after the end', async () => {
    const { clock, source, heard } = started();
    clock.pass(3000);
    await source.stop();
    const states = heard.states.length;
    const steer = (): void => source.steer({ paused: false, action: 'pump_on', rate: 120 });
    expect(problemOf(steer)).toMatchObject({ code: 'no_rehearsal' });
    clock.pass(10_000);
    expect(heard.raw).toHaveLength(4);
    expect(heard.marks).toEqual([]);
    expect(heard.states).toHaveLength(states);
  });
});

describe('the end of a rehearsal', () => {
  it('stops once, and leaves no timer', async () => {
    const { clock, source, heard } = started();
    await source.stop();
    await source.stop();
    expect(heard.states.map(({ phase }) => phase)).toEqual(['live', 'finished']);
    expect(clock.running).toBe(0);
  });

  it('can be stopped before it began', async () => {
    const clock = new HandClock();
    const source = new RehearsalSource({ scenario: DRY, seed: 1, rate: 1, helper: true, clock });
    await source.stop();
    expect(clock.running).toBe(0);
  });

  it('reveals what was really wrong', () => {
    const { source } = started({ scenario: scenarioNamed('weir-street-archive') });
    const truth = source.reveal();
    expect(truth.name).toBe('weir-street-archive');
    expect(truth.leakPaPerS).toBeGreaterThan(0);
  });
});

describe('a computer that stood still', () => {
  it('catches up a second of it, waits for the rest and says so once', () => {
    const { clock, heard } = started({ rate: 120 });
    clock.pass(500);
    expect(heard.raw).toHaveLength(61);
    clock.standStill(600_000);
    expect(heard.raw).toHaveLength(61 + 120);
    expect(heard.marks.filter(({ kind }) => kind === 'note')).toEqual([
      {
        kind: 'note',
        elapsedS: 60,
        text: 'The computer stood still: the rehearsal waited for 599.0 s.',
      },
    ]);
    clock.standStill(5000);
    expect(heard.marks.filter(({ kind }) => kind === 'note')).toHaveLength(1);
    clock.pass(100);
    clock.standStill(5000);
    expect(heard.marks.filter(({ kind }) => kind === 'note')).toHaveLength(2);
    // Whatever happened: no reading is missing, none comes twice.
    expect(heard.raw.map(({ arrivedMs }) => arrivedMs)).toEqual(
      Array.from({ length: heard.raw.length }, (_, second) => second * 1000),
    );
  });

  it('says nothing of a short delay', () => {
    const { clock, heard } = started({ rate: 1, helper: false });
    clock.standStill(900);
    clock.pass(100);
    expect(heard.marks).toEqual([]);
    expect(heard.raw).toHaveLength(2);
  });
});
