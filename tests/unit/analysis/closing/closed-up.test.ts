/** Closing up takes the system away from the sensor: what was concluded stands, and no jump of the charge undoes it. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import { DEFAULT_SHEET, type Sheet } from '../../../../protocol/sheet.ts';
import { sensorShutOff } from '../../../../web/analysis/closing/closed-up.ts';
import { isOfRelease, vacuumLoss } from '../../../../web/analysis/closing/vacuum-loss.ts';
import { judge } from '../../../../web/analysis/judge.ts';
import { judgedHolds } from '../../../../web/analysis/judged-holds.ts';
import { passages } from '../../../../web/analysis/passages.ts';
import { historyOf } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const ISOLATED_S = 600;
const RELEASED_S = 1700;
const END_S = 2000;

const mark = (id: number, kind: MarkKind, elapsedS: number): Mark => ({
  id,
  kind,
  elapsedS,
  text: '',
  madeBy: 'hand',
});
const WORK = [mark(1, 'pump_on', 10), mark(2, 'isolated', ISOLATED_S)];

/** Down to 20 Pa and tight; then the charge is let in, or it is pumped again. */
function historyWith(after: (elapsedS: number) => number | null) {
  return historyOf(
    Array.from({ length: END_S + 1 }, (_, elapsedS) => {
      const tightPa = 20 + 2000 * Math.exp(-elapsedS / 60);
      const pressurePa = elapsedS < RELEASED_S ? tightPa : after(elapsedS);
      const condition = pressurePa === null ? ('over_range' as const) : ('ok' as const);
      return { elapsedS, pressurePa, condition, temperatureC: null };
    }),
  );
}
const charged = historyWith((elapsedS) => (elapsedS < RELEASED_S + 3 ? 3000 : null));

describe('the charge that was let in', () => {
  const before = judge(charged, WORK, DEFAULT_SHEET, RELEASED_S - 1);

  test('unmarked, ends the hold', () => {
    expect(before.rise?.verdict).toBe('tight_dry');
    expect(judge(charged, WORK, DEFAULT_SHEET, END_S).stage.name).not.toBe('rise');
  });

  test.each([['charge_released'], ['sensor_isolated', 'charge_released']] as const)(
    'after "%s" changes nothing of the verdict, now or when it is judged again',
    (...kinds) => {
      const closing = kinds.map((kind, at) => mark(3 + at, kind, RELEASED_S - 1));
      const marks = [...WORK, ...closing];
      for (const nowS of [RELEASED_S + 20, END_S, END_S]) {
        expect(judge(charged, marks, DEFAULT_SHEET, nowS)).toEqual(before);
      }
      const judgeAt = (nowS: number) => judge(charged, marks, DEFAULT_SHEET, nowS);
      const holds = judgedHolds(passages(judgeAt, END_S));
      expect(holds.map(({ rise }) => rise.verdict)).toEqual(['tight_dry']);
    },
  );

  test('is no loss of vacuum, marked at once or within a minute; a jump long before it is one', () => {
    const span = { isolatedS: ISOLATED_S, judgedS: 1500 };
    const loss = vacuumLoss(charged, span, END_S, DEFAULT_SHEET.leakLimitPaPerS);
    expect(loss?.atS).toBe(RELEASED_S);
    const at = (releasedS: number) => [mark(3, 'charge_released', releasedS)];
    expect(isOfRelease({ atS: RELEASED_S }, at(RELEASED_S - 2))).toBe(true);
    expect(isOfRelease({ atS: RELEASED_S }, at(RELEASED_S + 40))).toBe(true);
    expect(isOfRelease({ atS: RELEASED_S }, at(RELEASED_S + 90))).toBe(false);
    expect(isOfRelease({ atS: RELEASED_S }, [mark(3, 'cores_in', RELEASED_S)])).toBe(false);
  });
});

describe('a sensor that was shut off', () => {
  const shut = (elapsedS: number) => [...WORK, mark(3, 'sensor_isolated', elapsedS)];

  test('leaves the verdict of a whole hold as it is while nothing jumps', () => {
    const still = judge(charged, shut(1600), DEFAULT_SHEET, RELEASED_S - 2);
    expect(still).toEqual(judge(charged, WORK, DEFAULT_SHEET, 1600));
  });

  test('is judged anew by another sheet, and by marks that were set since', () => {
    const at = (sheet: Partial<Sheet>, marks = shut(1600)) =>
      judge(charged, marks, { ...DEFAULT_SHEET, ...sheet }, RELEASED_S - 2).rise?.verdict;
    expect(at({})).toBe('tight_dry');
    expect(at({ sensorSees: 'stub' })).not.toBe('tight_dry');
    expect(at({})).toBe('tight_dry');
    const alone = [...WORK, mark(4, 'stub_shut', 610), mark(3, 'sensor_isolated', 1600)];
    expect(at({}, alone)).not.toBe('tight_dry');
  });

  test('does not hide that the vacuum is lost before the charge is let in', () => {
    expect(judge(charged, shut(1600), DEFAULT_SHEET, END_S).stage.name).not.toBe('rise');
    // Nor does a release that is marked long after it.
    const late = [...shut(1600), mark(4, 'charge_released', RELEASED_S + 200)];
    expect(judge(charged, late, DEFAULT_SHEET, END_S).stage.name).not.toBe('rise');
  });

  test('ends no hold before its time, and no leak goes undecided for it', () => {
    const leaking = historyOf(
      Array.from({ length: END_S + 1 }, (_, elapsedS) => ({
        elapsedS,
        pressurePa:
          20 + 2000 * Math.exp(-elapsedS / 60) + Math.max(0, elapsedS - ISOLATED_S) * 0.05,
        condition: 'ok' as const,
        temperatureC: null,
      })),
    );
    const early = judge(leaking, shut(ISOLATED_S + 40), DEFAULT_SHEET, END_S);
    expect(early.nowS).toBe(END_S);
    expect(early.rise?.verdict).toBe('leak');
  });

  test.each(['stub_shut', 'sections_shut', 'part_seen', 'joints_tightened', 'cores_out'] as const)(
    'is at work again after "%s"',
    (kind) => {
      const marks = [...shut(1600), mark(4, kind, 1650)];
      expect(judge(charged, marks, DEFAULT_SHEET, RELEASED_S - 2).nowS).toBe(RELEASED_S - 2);
    },
  );
});

describe('up to when it was judged', () => {
  const told = (marks: Mark[], nowS: number) =>
    sensorShutOff([...marks].reverse(), judge(charged, marks, DEFAULT_SHEET, nowS));
  const shut = (elapsedS: number) => [...WORK, mark(3, 'sensor_isolated', elapsedS)];

  test('is the moment at which the sensor was shut off, also once the charge is in', () => {
    const released = [...shut(1600), mark(4, 'charge_released', RELEASED_S - 1)];
    expect(told(shut(1600), RELEASED_S - 2)).toEqual({ atS: 1600, judgedUpToS: 1600 });
    expect(told(released, END_S)).toEqual({ atS: 1600, judgedUpToS: 1600 });
  });

  test('is no moment where no hold ran to its end, or the vacuum was lost', () => {
    expect(told(shut(700), 1000)).toEqual({ atS: 700, judgedUpToS: null });
    expect(told(shut(1600), END_S)).toEqual({ atS: 1600, judgedUpToS: null });
  });

  test('is not asked while the sensor sees the system', () => {
    expect(told(WORK, 1600)).toBeNull();
    expect(told([mark(3, 'sensor_isolated', 1), ...WORK], 1000)).toBeNull();
    // The pump was started, and nobody marked it.
    expect(told([mark(3, 'sensor_isolated', 1)], 400)).toBeNull();
  });
});

describe('work that goes on', () => {
  /** Vented, and pumped again two minutes later. */
  const falling = historyWith((elapsedS) => {
    const pumpedS = Math.max(elapsedS - RELEASED_S - 120, 0);
    return 10 + 90_000 * Math.exp(-pumpedS / 20);
  });

  test('a pump that is started again counts, marked or by its curve', () => {
    const shut = mark(3, 'sensor_isolated', RELEASED_S - 5);
    const again = mark(4, 'pump_on', RELEASED_S);
    const reopened = mark(5, 'reopened', RELEASED_S);
    const marked = judge(falling, [...WORK, shut, again, reopened], DEFAULT_SHEET, END_S);
    expect(marked.nowS).toBe(END_S);
    const byCurve = judge(falling, [...WORK, shut], DEFAULT_SHEET, END_S);
    expect(byCurve.nowS).toBe(END_S);
    expect(['pull_down', 'at_depth']).toContain(byCurve.stage.name);
  });

  test('a sensor that was shut off for the nitrogen test before any vacuum stops nothing', () => {
    const marks = [mark(3, 'sensor_isolated', 1), ...WORK];
    expect(judge(charged, marks, DEFAULT_SHEET, 1000)).toEqual(
      judge(charged, WORK, DEFAULT_SHEET, 1000),
    );
  });
});
