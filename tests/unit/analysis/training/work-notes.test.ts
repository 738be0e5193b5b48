/** What is said of a trainee’s work and call, at the edges of what counts. */
import type { Call, RehearsalCause } from '../../../../protocol/api.ts';
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import { paFromMicron } from '../../../../protocol/units.ts';
import type { Hold } from '../../../../web/analysis/stages/holds.ts';
import { callFindings } from '../../../../web/analysis/training/call-findings.ts';
import { workFindings, type Work } from '../../../../web/analysis/training/work-findings.ts';
import { historyOf } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const hold = (fromS: number, toS: number): Hold => ({ fromS, toS });
const CALL: Call = { trainee: 'Ines', cause: 'leak', surePercent: 60, elapsedS: 3000 };

describe('the moment of a call', () => {
  const time = (
    elapsedS: number,
    holds: readonly Hold[],
    cause: RehearsalCause = 'leak',
    toldS: number | null = 500,
  ) =>
    callFindings({ ...CALL, cause, elapsedS }, { reveal: { cause, toldS }, holds, holdS: 900 })[1]
      ?.kind;

  test('without a hold may come up to an hour after the curve told', () => {
    expect(time(499, [])).toBe('called_before_it_told');
    expect(time(500, [])).toBe('called_in_time');
    expect(time(4100, [])).toBe('called_in_time');
    expect(time(4101, [])).toBe('called_long_after');
  });

  test('with one, up to ten minutes after its full length or its end', () => {
    expect(time(3500, [hold(2000, 9000)])).toBe('called_in_time');
    expect(time(3501, [hold(2000, 9000)])).toBe('called_long_after');
    expect(time(2900, [hold(2000, 2300)])).toBe('called_in_time');
    expect(time(2901, [hold(2000, 2300)])).toBe('called_long_after');
    // The last one that had begun by then counts.
    expect(time(3500, [hold(1000, 1100), hold(2000, 9000), hold(5000, 6000)])).toBe(
      'called_in_time',
    );
    // One that begins with the call is the last one as well: it may still tell more.
    expect(time(2000, [hold(500, 1000), hold(2000, 9000)])).toBe('called_in_time');
    // What told only after the hold was told in time then.
    expect(time(5600, [hold(2000, 2300)], 'leak', 5000)).toBe('called_in_time');
    expect(time(5601, [hold(2000, 2300)], 'leak', 5000)).toBe('called_long_after');
  });

  test('that nothing is wrong is told by a full hold alone', () => {
    expect(time(2899, [hold(2000, 3000)], 'in_order')).toBe('called_before_it_told');
    expect(time(2900, [hold(2000, 2900)], 'in_order')).toBe('called_in_time');
    expect(time(9000, [hold(2000, 2899)], 'in_order')).toBe('called_before_it_told');
    expect(time(9000, [], 'in_order')).toBe('called_before_it_told');
  });

  test('of a radio that failed is not measured', () => {
    expect(
      callFindings(
        { ...CALL, cause: 'radio' },
        { reveal: { cause: 'radio', toldS: 5 }, holds: [], holdS: 900 },
      ),
    ).toEqual([expect.objectContaining({ kind: 'right_call', grade: 'well', atS: 3000 })]);
  });
});

test('each thing that is said of a call says when it was made', () => {
  const about = (cause: RehearsalCause, surePercent: number, toldS: number, elapsedS: number) =>
    callFindings(
      { ...CALL, cause, surePercent, elapsedS },
      { reveal: { cause: 'leak', toldS }, holds: [], holdS: 900 },
    ).map(({ kind, atS }) => [kind, atS]);
  expect(about('leak', 60, 500, 400)).toEqual([
    ['right_call', 400],
    ['called_before_it_told', 400],
  ]);
  expect(about('leak_and_moisture', 60, 500, 600)).toEqual([
    ['half_right_call', 600],
    ['called_in_time', 600],
  ]);
  expect(about('battery', 90, 500, 9000)).toEqual([
    ['sure_and_wrong', 9000],
    ['called_long_after', 9000],
  ]);
});

interface Job {
  readonly micronAt?: (t: number) => number | null;
  readonly marks?: readonly (readonly [MarkKind, number])[];
  readonly holds?: readonly Hold[];
  readonly cause?: RehearsalCause;
  readonly ballastOpenAtStart?: boolean;
  readonly lengthS?: number;
}

const said = (job: Job): string[] => findingsOf(job).map(({ kind }) => kind);

function findingsOf(job: Job) {
  const { micronAt = () => 200, marks = [], holds = [], cause = 'leak', lengthS = 3000 } = job;
  const work: Work = {
    history: historyOf(
      Array.from({ length: lengthS + 1 }, (_, elapsedS) => {
        const micron = micronAt(elapsedS);
        const isSeen = micron !== null;
        return {
          elapsedS,
          pressurePa: isSeen ? paFromMicron(micron) : null,
          condition: isSeen ? ('ok' as const) : ('over_range' as const),
          temperatureC: null,
        };
      }),
    ),
    marks: [['pump_on', 10] as const, ...marks].map(([kind, elapsedS], id): Mark => ({
      ...{ id: id + 1, kind, elapsedS, text: '', madeBy: 'hand' },
    })),
    holds,
    sheet: { isolateAtPa: paFromMicron(250), endLimitPa: paFromMicron(500), holdS: 900 },
    cause,
    ballastOpenAtStart: job.ballastOpenAtStart ?? false,
    endS: lengthS,
  };
  return workFindings(work);
}

describe('valving off', () => {
  const flat = (micron: number) => (t: number) => micron + 6000 * Math.exp(-t / 60);
  const isolated = (micronAt: (t: number) => number | null, cause: RehearsalCause = 'leak') =>
    said({ micronAt, cause, holds: [hold(2000, 2950)] }).find((kind) =>
      /^(isolated|valved_off_at)/u.test(kind),
    );
  const falling = (micronAt2000: number) => (t: number) =>
    micronAt2000 * Math.exp(-(t - 2000) / 900);

  test('is at depth to within five per cent', () => {
    expect(isolated(flat(262))).toBe('isolated_at_depth');
    expect(isolated(falling(255))).toBe('isolated_at_depth');
    expect(isolated(flat(264))).toBe('isolated_where_it_levelled_off');
  });

  test('above it is well where the curve had levelled off, and early while it fell', () => {
    expect(isolated(flat(700))).toBe('isolated_where_it_levelled_off');
    expect(isolated(falling(350))).toBe('isolated_above_depth');
    expect(isolated(falling(430))).toBe('isolated_above_depth');
    expect(isolated(falling(470))).toBe('valved_off_at_the_limit');
    // 2 % a minute is level, 5 % is not.
    expect(isolated((t) => 350 * Math.exp(-(t - 2000) / 3000))).toBe(
      'isolated_where_it_levelled_off',
    );
    expect(isolated((t) => 350 * Math.exp(-(t - 2000) / 1200))).toBe('isolated_above_depth');
  });

  test('where water boils is early, however level: it comes down when that is over', () => {
    expect(isolated(flat(4000), 'moisture')).toBe('valved_off_at_the_limit');
    expect(isolated(flat(4000), 'leak_and_moisture')).toBe('valved_off_at_the_limit');
    expect(isolated(flat(4000), 'pump_or_oil')).toBe('isolated_where_it_levelled_off');
    expect(isolated(flat(990), 'moisture')).toBe('isolated_where_it_levelled_off');
  });

  test('out of range is early', () => {
    expect(isolated((t) => (t > 1500 ? null : 300))).toBe('valved_off_at_the_limit');
  });
});

describe('the hold', () => {
  const held = (holds: readonly Hold[], micronAt: (t: number) => number = () => 200) =>
    said({ holds, micronAt }).find((kind) => /hold|held/u.test(kind));

  test('that was longest counts', () => {
    expect(held([])).toBe('never_held');
    expect(held([hold(1000, 1899)])).toBe('hold_too_short');
    expect(held([hold(1000, 1900)])).toBe('hold_long_enough');
    expect(held([hold(100, 200), hold(1000, 1900), hold(2000, 2100)])).toBe('hold_long_enough');
  });

  test('may end early where it stands above its limit already', () => {
    expect(held([hold(1000, 1500)], () => 510)).toBe('hold_failed_before_its_end');
    expect(held([hold(1000, 1500)], () => 490)).toBe('hold_too_short');
  });
});

describe('the ballast', () => {
  const ballast = (job: Job) =>
    said({ ballastOpenAtStart: true, ...job }).find((kind) => kind.startsWith('ballast'));
  /** 3000 micron at some 420 s. */
  const slow = (t: number) => 100 + 1e5 * Math.exp(-t / 119);

  test('is closed in time within ten minutes of 3000 micron', () => {
    expect(ballast({ micronAt: slow, marks: [['ballast_closed', 430]] })).toBe(
      'ballast_closed_in_time',
    );
    expect(ballast({ micronAt: slow, marks: [['ballast_closed', 1000]] })).toBe(
      'ballast_closed_in_time',
    );
    expect(ballast({ micronAt: slow, marks: [['ballast_closed', 1060]] })).toBe(
      'ballast_closed_late',
    );
  });

  test('a little above that is no sin, far above it is early', () => {
    expect(ballast({ micronAt: slow, marks: [['ballast_closed', 416]] })).toBe(
      'ballast_closed_in_time',
    );
    expect(ballast({ micronAt: slow, marks: [['ballast_closed', 390]] })).toBe(
      'ballast_closed_too_early',
    );
    const flat = (t: number) => 6000 + 1e5 * Math.exp(-t / 60);
    expect(ballast({ micronAt: flat, marks: [['ballast_closed', 1500]], cause: 'leak' })).toBe(
      'ballast_closed_in_time',
    );
    expect(ballast({ micronAt: flat, marks: [['ballast_closed', 1500]], cause: 'moisture' })).toBe(
      'ballast_closed_too_early',
    );
  });

  test('is closed in time with the valve, and too early where the pressure was not seen yet', () => {
    const holds = [hold(1000, 2000)];
    expect(ballast({ micronAt: slow, holds, marks: [['ballast_closed', 1000]] })).toBe(
      'ballast_closed_in_time',
    );
    expect(ballast({ micronAt: slow, holds, marks: [['ballast_closed', 1001]] })).toBe(
      'ballast_left_open',
    );
    const unseen = (t: number) => (t < 500 ? null : 200);
    expect(ballast({ micronAt: unseen, marks: [['ballast_closed', 300]] })).toBe(
      'ballast_closed_too_early',
    );
  });

  test('that was left open is missed where it was due, and nothing is said of one that was closed from the start', () => {
    expect(ballast({ micronAt: slow })).toBe('ballast_left_open');
    expect(
      ballast({ micronAt: slow, holds: [hold(1500, 2500)], marks: [['ballast_closed', 1600]] }),
    ).toBe('ballast_left_open');
    expect(ballast({ micronAt: () => 9000 })).toBeUndefined();
    expect(
      said({ micronAt: slow, ballastOpenAtStart: false }).some((kind) =>
        kind.startsWith('ballast'),
      ),
    ).toBe(false);
  });
});

describe('stops and cures', () => {
  const about = (marks: NonNullable<Job['marks']>, cause: RehearsalCause = 'leak') =>
    said({ marks, cause }).filter((kind) => /pump_stop|cure/u.test(kind));

  test('oil is drawn back into what is open to a standing pump', () => {
    expect(about([['pump_off', 100]])).toEqual(['pump_stopped_before_valve_off']);
    expect(
      about([
        ['isolated', 90],
        ['pump_off', 100],
      ]),
    ).toEqual(['valved_off_before_pump_stopped']);
    expect(
      about([
        ['isolated', 90],
        ['reopened', 95],
        ['pump_off', 100],
      ]),
    ).toEqual(['pump_stopped_before_valve_off']);
    expect(
      about(
        [
          ['nitrogen_break', 90],
          ['pump_off', 100],
        ],
        'moisture',
      ),
    ).toEqual(['valved_off_before_pump_stopped', 'cure_tried']);
  });

  test('each says when', () => {
    const marks: NonNullable<Job['marks']> = [
      ['pump_off', 100],
      ['isolated', 190],
      ['pump_off', 200],
      ['oil_changed', 300],
      ['joints_tightened', 400],
    ];
    const found = findingsOf({ marks, holds: [hold(190, 900)], micronAt: () => 200 });
    expect(found.map(({ kind, atS, lastedS }) => [kind, atS, lastedS])).toEqual([
      ['isolated_at_depth', 190, null],
      ['pump_stopped_before_valve_off', 100, null],
      ['valved_off_before_pump_stopped', 200, null],
      ['hold_too_short', 900, 710],
      ['other_cure_tried', 300, null],
      ['cure_tried', 400, null],
    ]);
  });

  test.each<[RehearsalCause, MarkKind[]]>([
    ['moisture', ['nitrogen_break']],
    ['refrigerant', ['nitrogen_break']],
    ['leak', ['nitrogen_break', 'joints_tightened']],
    ['leak_and_moisture', ['nitrogen_break', 'joints_tightened']],
    ['gear_leak', ['nitrogen_break', 'joints_tightened', 'stub_shut']],
    ['pump_or_oil', ['oil_changed']],
    ['narrow_way', ['cores_out']],
    ['part_shut_off', ['sections_opened']],
    ['battery', ['battery_changed']],
    ['in_order', []],
    ['charged_side', []],
    ['ballast_open', []],
    ['sensor_place', []],
    ['radio', []],
  ])('%s is cured or found by %j alone', (cause, cures) => {
    const trials: readonly MarkKind[] = [
      ...(['oil_changed', 'battery_changed', 'joints_tightened', 'nitrogen_break'] as const),
      ...(['sections_opened', 'stub_shut', 'cores_out'] as const),
    ];
    for (const kind of trials) {
      expect(about([[kind, 500]], cause), kind).toEqual([
        cures.includes(kind) ? 'cure_tried' : 'other_cure_tried',
      ]);
    }
    expect(
      about(
        [
          ['note', 500],
          ['sections_shut', 600],
        ],
        cause,
      ),
    ).toEqual([]);
  });

  test('who never pumped is told that, and nothing else', () => {
    expect(workFindings({ ...WORK, marks: [] }).map(({ kind }) => kind)).toEqual(['never_pumped']);
  });
});

const WORK: Work = {
  ...{ history: historyOf([]), marks: [], holds: [], cause: 'leak', ballastOpenAtStart: true },
  ...{ endS: 0, sheet: { isolateAtPa: 30, endLimitPa: 60, holdS: 900 } },
};
