import type { Call, RehearsalCause } from '../../../../protocol/api.ts';
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { micronFromPa, paFromMicron } from '../../../../protocol/units.ts';
import type { HistoryPoint } from '../../../../web/analysis/readings/history.ts';
import { debrief, type Rehearsed } from '../../../../web/analysis/training/debrief.ts';
import { historyOf } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const PUMPED_S = 20;
/** Falling to 60 micron; crosses 3000 micron at 84 s, 500 at 254, 250 at 331. */
const FALLING = (elapsedS: number): number => 60 + 6000 * Math.exp(-(elapsedS - PUMPED_S) / 90);
/** Levels off at 700 micron. */
const LEVELLING = (elapsedS: number): number => 700 + 6000 * Math.exp(-(elapsedS - PUMPED_S) / 60);
/** Stays near 4000 micron. */
const BOILING = (elapsedS: number): number => 4000 + 6000 * Math.exp(-(elapsedS - PUMPED_S) / 30);

type Marked = readonly [MarkKind, number];

interface Job {
  readonly curve?: (elapsedS: number) => number;
  readonly marks?: readonly Marked[];
  readonly lengthS?: number;
  /** Micron a minute after the first isolation. */
  readonly risePerMinute?: number;
  readonly cause?: RehearsalCause;
  readonly toldS?: number | null;
  readonly ballastOpenAtStart?: boolean;
  readonly call?: Partial<Call> | null;
  readonly helped?: boolean;
}

function rehearsed(job: Job): Rehearsed {
  const { curve = FALLING, lengthS = 2000, risePerMinute = 2 } = job;
  const marks = (job.marks ?? []).map(([kind, elapsedS], at): Mark => ({
    id: at + 1,
    kind,
    elapsedS,
    text: '',
    madeBy: 'rehearsal',
  }));
  const heldS = marks.find(({ kind }) => kind === 'isolated')?.elapsedS ?? Infinity;
  const points = Array.from({ length: lengthS + 1 }, (_, elapsedS): HistoryPoint => {
    const micron =
      curve(Math.min(elapsedS, heldS)) + (Math.max(elapsedS - heldS, 0) / 60) * risePerMinute;
    return elapsedS < PUMPED_S
      ? { elapsedS, pressurePa: null, condition: 'over_range', temperatureC: null }
      : { elapsedS, pressurePa: paFromMicron(micron), condition: 'ok', temperatureC: null };
  });
  const { cause = 'leak', toldS = 200, ballastOpenAtStart = true } = job;
  return {
    history: historyOf(points),
    marks,
    sheet: DEFAULT_SHEET,
    call:
      job.call === null
        ? null
        : { trainee: 'Ines', cause: 'leak', surePercent: 60, elapsedS: 1500, ...job.call },
    reveal: { cause, toldS, ballastOpenAtStart },
    helped: job.helped ?? false,
  };
}

const found = (job: Job) => debrief(rehearsed(job));
const said = (job: Job): string[] => found(job).map(({ kind, grade }) => `${kind}: ${grade}`);
const byHelper = (job: Job): string[] => said({ ...job, helped: true });

/** As a careful technician would do it. */
const CAREFUL: readonly Marked[] = [
  ['pump_on', 20],
  ['ballast_closed', 90],
  ['isolated', 420],
];

test('careful work and a right call are all well', () => {
  const findings = found({ marks: CAREFUL });
  expect(findings.map(({ kind }) => kind)).toEqual([
    'right_call',
    'called_in_time',
    'ballast_closed_in_time',
    'isolated_at_depth',
    'hold_long_enough',
  ]);
  expect(new Set(findings.map(({ grade }) => grade))).toEqual(new Set(['well']));
  const isolated = findings.find(({ kind }) => kind === 'isolated_at_depth');
  expect(isolated?.atS).toBe(420);
  // The median of the last three readings lags by one.
  expect(micronFromPa(isolated?.pressurePa ?? NaN) - FALLING(420)).toBeGreaterThanOrEqual(0);
  expect(micronFromPa(isolated?.pressurePa ?? NaN) - FALLING(422 - 5)).toBeLessThanOrEqual(0);
  expect(findings.find(({ kind }) => kind === 'hold_long_enough')?.lastedS).toBe(1580);
});

describe('the call', () => {
  const cause = (call: Partial<Call> | null, truth: RehearsalCause) =>
    byHelper({ call, cause: truth, marks: CAREFUL })[0];

  test('is right, wrong, half right, or sure and wrong', () => {
    expect(cause({ cause: 'leak' }, 'leak')).toBe('right_call: well');
    expect(cause({ cause: 'battery', surePercent: 79 }, 'leak')).toBe('wrong_call: missed');
    expect(cause({ cause: 'battery', surePercent: 80 }, 'leak')).toBe('sure_and_wrong: missed');
    expect(cause({ cause: 'leak' }, 'leak_and_moisture')).toBe('half_right_call: missed');
    expect(cause({ cause: 'leak_and_moisture' }, 'moisture')).toBe('half_right_call: missed');
    expect(cause({ cause: 'moisture' }, 'leak')).toBe('wrong_call: missed');
    expect(cause(null, 'leak')).toBe('no_call: missed');
  });

  const time = (elapsedS: number, job: Job = {}) =>
    byHelper({
      marks: CAREFUL,
      lengthS: 6000,
      ...job,
      call: { elapsedS, cause: job.cause ?? 'leak' },
    })[1];

  test('before the curve told is a guess, however right', () => {
    expect(time(199)).toBe('called_before_it_told: early');
    expect(time(200)).toBe('called_in_time: well');
    expect(time(5000, { toldS: null })).toBe('called_before_it_told: early');
  });

  test('has until ten minutes after the end of the hold', () => {
    // Isolated at 420 s, a hold of 900 s.
    expect(time(420 + 900 + 600)).toBe('called_in_time: well');
    expect(time(420 + 900 + 601)).toBe('called_long_after: late');
    // A second hold may tell more.
    const again: Job['marks'] = [...CAREFUL, ['reopened', 1400], ['isolated', 2000]];
    expect(time(2000 + 900, { marks: again })).toBe('called_in_time: well');
    // Whoever never holds has an hour.
    expect(time(3800, { marks: [['pump_on', 20]] })).toBe('called_in_time: well');
    expect(time(3801, { marks: [['pump_on', 20]] })).toBe('called_long_after: late');
  });

  test('that all is in order needs a full hold', () => {
    const fine = { cause: 'in_order', toldS: null } as const;
    expect(time(420 + 899, fine)).toBe('called_before_it_told: early');
    expect(time(420 + 900, fine)).toBe('called_in_time: well');
    expect(time(4000, { ...fine, marks: [['pump_on', 20]] })).toBe('called_before_it_told: early');
  });

  test('of the radio is not measured by the curve', () => {
    expect(byHelper({ call: { cause: 'radio' }, cause: 'radio', toldS: null })).toEqual([
      'right_call: well',
    ]);
  });
});

describe('the work', () => {
  const work = (job: Job): string[] => said({ call: null, ...job }).slice(1);
  const aboutBallast = (job: Job) => work(job).filter((line) => line.startsWith('ballast'));

  test('of a helper is not the trainee’s', () => {
    expect(byHelper({ call: null, marks: [] })).toEqual(['no_call: missed']);
    expect(work({ marks: [] })).toEqual(['never_pumped: missed']);
  });

  test('closes the ballast neither above 3000 micron nor long after, and not never', () => {
    const closed = (elapsedS: number, job: Job = {}) =>
      aboutBallast({
        lengthS: 1500,
        marks: [
          ['pump_on', 20],
          ['ballast_closed', elapsedS],
        ],
        ...job,
      });
    expect(closed(60)).toEqual(['ballast_closed_too_early: early']);
    expect(closed(90)).toEqual(['ballast_closed_in_time: well']);
    expect(closed(680)).toEqual(['ballast_closed_in_time: well']);
    expect(closed(700)).toEqual(['ballast_closed_late: late']);
    expect(aboutBallast({ marks: [['pump_on', 20]] })).toEqual(['ballast_left_open: missed']);
    // Closed only after the valve was: open while it mattered.
    const after: Job['marks'] = [
      ['pump_on', 20],
      ['isolated', 420],
      ['ballast_closed', 430],
    ];
    expect(aboutBallast({ marks: after })).toEqual(['ballast_left_open: missed']);
    expect(aboutBallast({ marks: [['pump_on', 20]], ballastOpenAtStart: false })).toEqual([]);
  });

  test('waits for water to boil off, and for nothing where there is none', () => {
    const at1000: Job['marks'] = [
      ['pump_on', 20],
      ['ballast_closed', 1000],
      ['isolated', 1100],
    ];
    const wet = work({ curve: BOILING, cause: 'moisture', marks: at1000 });
    expect(wet).toContain('ballast_closed_too_early: early');
    expect(wet).toContain('valved_off_at_the_limit: early');
    const dry = work({ curve: BOILING, cause: 'leak', marks: at1000 });
    expect(dry).toContain('ballast_closed_in_time: well');
    expect(dry).toContain('isolated_where_it_levelled_off: well');
    expect(aboutBallast({ curve: BOILING, marks: [['pump_on', 20]] })).toEqual([]);
  });

  test.each([
    ['isolated_at_depth: well', 360, FALLING],
    ['isolated_above_depth: early', 300, FALLING],
    ['valved_off_at_the_limit: early', 260, FALLING],
    ['isolated_where_it_levelled_off: well', 700, LEVELLING],
    ['valved_off_at_the_limit: early', 19, FALLING],
  ])('valves off: %s at %i s', (expected, isolatedS, curve) => {
    const marks: Job['marks'] = [
      ['pump_on', 1],
      ['isolated', isolatedS],
    ];
    expect(work({ curve, marks })).toContain(expected);
  });

  test('judges each hold’s beginning, and the longest one’s length', () => {
    const marks: Job['marks'] = [...CAREFUL, ['reopened', 1000], ['isolated', 1060]];
    const findings = found({ marks, lengthS: 2000 });
    expect(findings.filter(({ kind }) => kind.startsWith('isolated'))).toHaveLength(2);
    const hold = findings.filter(({ kind }) => kind.startsWith('hold'));
    expect(hold).toMatchObject([{ kind: 'hold_long_enough', atS: 2000, lastedS: 940 }]);
  });

  test('holds long enough, unless the hold has failed already', () => {
    const hold = (lengthS: number, risePerMinute: number) =>
      work({ marks: CAREFUL, lengthS, risePerMinute }).filter((line) => line.startsWith('hold'));
    expect(hold(420 + 900, 2)).toEqual(['hold_long_enough: well']);
    expect(hold(420 + 899, 2)).toEqual(['hold_too_short: early']);
    expect(hold(420 + 300, 100)).toEqual(['hold_failed_before_its_end: well']);
    expect(work({ marks: [['pump_on', 20]] })).toContain('never_held: missed');
  });

  test('stops the pump behind a closed valve', () => {
    const off = (...before: readonly Marked[]) =>
      work({ marks: [['pump_on', 20], ...before, ['pump_off', 500]] });
    expect(off()).toContain('pump_stopped_before_valve_off: early');
    expect(off(['isolated', 420])).toContain('valved_off_before_pump_stopped: well');
    expect(off(['isolated', 420], ['reopened', 450])).toContain(
      'pump_stopped_before_valve_off: early',
    );
    expect(off(['nitrogen_break', 450])).toContain('valved_off_before_pump_stopped: well');
  });

  test('tries what cures the cause, or something else', () => {
    const tried = (cause: RehearsalCause) =>
      found({ cause, marks: [...CAREFUL, ['oil_changed', 1500]] }).filter(
        ({ cure }) => cure !== null,
      );
    expect(tried('pump_or_oil')).toMatchObject([
      { kind: 'cure_tried', grade: 'well', cure: 'oil_changed', atS: 1500 },
    ]);
    expect(tried('leak')).toMatchObject([{ kind: 'other_cure_tried', grade: 'missed' }]);
  });

  test('is judged by the order of the marks’ times, not by that of their arrival', () => {
    const { marks, ...rest } = rehearsed({ marks: CAREFUL });
    expect(debrief({ ...rest, marks: [...marks].reverse() })).toEqual(debrief({ ...rest, marks }));
  });
});
