/** What the reader of the stages makes of a filling, a blank and a mark that comes before the curve shows it. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import type { TimeBin } from '../../../../web/analysis/readings/bin-level.ts';
import { StageReader } from '../../../../web/analysis/stages/stage-reader.ts';
import { Trace } from '../../../../web/analysis/stages/trace.ts';
import { describe, expect, test } from 'vitest';

type Curve = (elapsedS: number) => number | null;
type Marked = readonly [MarkKind, number];

/** A reading each second; null is over range. Marks come with the first reading at their time or after it. */
function read(curve: Curve, untilS: number, marked: readonly Marked[] = [], fromS = 0) {
  const times = Array.from({ length: untilS - fromS + 1 }, (_, n) => fromS + n);
  const trace = new Trace(
    times.map((elapsedS): TimeBin => {
      const pressurePa = curve(elapsedS);
      return { elapsedS, pressurePa, count: 1, overRange: 0, temperatureC: null };
    }),
  );
  const reader = new StageReader(trace, 50);
  const marks = marked.map(([kind, elapsedS], at): Mark => {
    return { id: at + 1, kind, elapsedS, text: '', madeBy: 'hand' };
  });
  let index = 0;
  let due = 0;
  for (const elapsedS of times) {
    for (let mark = marks[due]; mark && mark.elapsedS <= elapsedS; mark = marks[due]) {
      reader.mark(mark);
      due += 1;
    }
    if (curve(elapsedS) === null) {
      reader.overRange(elapsedS);
    } else {
      reader.reading(index);
      index += 1;
    }
  }
  return reader;
}
const stageOf = (...given: Parameters<typeof read>) => read(...given).spells.at(-1)?.stage;

const ATMOSPHERE_PA = 100_000;
/** Stands at the atmosphere for a minute, then pumped to 30 Pa. */
const pumped = (t: number) => (t < 60 ? ATMOSPHERE_PA : 30 + 99_970 * Math.exp(-(t - 60) / 30));
const FILLED_S = 500;
const filledTo = (filledPa: Curve) => (t: number) => (t < FILLED_S ? pumped(t) : filledPa(t));

describe('what a filling was', () => {
  const OPEN = ['vented', 'pump_stopped'];

  test('is told once it has stood for a minute and a half: it may be on its way up', () => {
    const air = filledTo(() => ATMOSPHERE_PA);
    expect(stageOf(air, FILLED_S + 80)).toMatchObject({
      ...{ name: 'nitrogen_break', alternatives: OPEN, recognisedBy: 'curve' },
    });
    expect(stageOf(air, FILLED_S + 100)).toMatchObject({ name: 'vented', alternatives: [] });
    const nitrogen = filledTo((t) => (t < FILLED_S + 75 ? ATMOSPHERE_PA : 105_000));
    expect(stageOf(nitrogen, FILLED_S + 80)).toMatchObject({ alternatives: OPEN });
    expect(stageOf(nitrogen, FILLED_S + 200)).toMatchObject({
      ...{ name: 'nitrogen_break', alternatives: [] },
    });
  });

  test('is not told where it went over range: what was shown is cut off', () => {
    const over = filledTo((t) => (t < FILLED_S + 60 ? ATMOSPHERE_PA : null));
    expect(stageOf(over, FILLED_S + 200)).toMatchObject({
      ...{ name: 'nitrogen_break', alternatives: OPEN },
    });
    // Nor by an atmosphere that was cut off.
    const cut = (t: number) => (t > 20 && t < 40 ? null : filledTo(() => 105_000)(t));
    expect(stageOf(cut, FILLED_S + 200)).toMatchObject({ alternatives: OPEN });
  });

  test('is what a hand says, however high it stands', () => {
    const air = filledTo(() => ATMOSPHERE_PA);
    expect(stageOf(air, FILLED_S + 200, [['nitrogen_break', FILLED_S]])).toMatchObject({
      ...{ name: 'nitrogen_break', recognisedBy: 'mark', alternatives: [] },
    });
  });
});

describe('a break that was marked before the valve was opened', () => {
  /** Goes on falling from 30 to 22 Pa, and is filled from 600 to 700 s. */
  const curve = (t: number) => {
    if (t < FILLED_S) return pumped(t);
    if (t < 600) return 30 - 8 * (1 - Math.exp(-(t - FILLED_S) / 10));
    if (t < 700) return ATMOSPHERE_PA;
    return 22 + 99_978 * Math.exp(-(t - 700) / 20);
  };
  const marks: Marked[] = [['nitrogen_break', FILLED_S]];

  test('is no pull-down by what the pressure does until then', () => {
    expect(stageOf(curve, 590, marks)).toMatchObject({ name: 'nitrogen_break', sinceS: FILLED_S });
    expect(stageOf(curve, 690, marks)).toMatchObject({ name: 'nitrogen_break', sinceS: FILLED_S });
  });

  test.each([ATMOSPHERE_PA, 40_000])('ends where it is pumped off, filled to %d Pa', (filledPa) => {
    const filled = (t: number) => {
      if (t < 600) return curve(t);
      return t < 700 ? filledPa : 22 + filledPa * Math.exp(-(t - 700) / 20);
    };
    const stage = stageOf(filled, 760, marks);
    expect(stage?.name).toBe('pull_down');
    expect(Math.abs((stage?.sinceS ?? 0) - 700)).toBeLessThan(4);
  });
});

describe('a blank', () => {
  /** Held from 500 s on, and not in range for a minute from 700 s on. */
  const held = (backPa: number) => (t: number) => {
    if (t < FILLED_S) return pumped(t);
    if (t >= 700 && t < 760) return null;
    return t < 700 ? 30 + 0.02 * (t - FILLED_S) : backPa + 0.02 * (t - 760);
  };
  const marks: Marked[] = [['isolated', FILLED_S]];

  test('out of which the curve comes back to where it was, is no filling', () => {
    expect(stageOf(held(36), 755, marks)?.name).not.toBe('rise');
    const { spells } = read(held(36), 800, marks);
    expect(spells.map(({ stage }) => stage.name)).toEqual(['waiting', 'pull_down', 'rise']);
    expect(spells.at(-1)?.stage).toMatchObject({ sinceS: FILLED_S, recognisedBy: 'mark' });
  });

  test('out of which it comes back elsewhere, is one', () => {
    expect(stageOf(held(200), 765, marks)?.name).not.toBe('rise');
  });
});

test('a pull-down that was under way at the first reading began no earlier for who saw nothing before', () => {
  // Over range for three seconds, and then by a rate that makes it 75 s since the atmosphere.
  const seen = (t: number) => (t < 303 ? null : 2300 * Math.exp(-(t - 303) / 20));
  const stage = stageOf(seen, 400, [], 300);
  expect(stage).toMatchObject({ name: 'pull_down', sinceS: 300 });
});

test('what the curve tells is plain after it began, and a mark’s stage at once', () => {
  const rising = (t: number) => (t < FILLED_S ? pumped(t) : 30 + 0.3 * (t - FILLED_S));
  const seen = read(rising, 700).spells.at(-1);
  expect(seen?.stage.name).toBe('rise');
  expect(seen?.seenS).toBeGreaterThan((seen?.stage.sinceS ?? Infinity) + 5);
  expect(seen?.seenS).toBeLessThan(FILLED_S + 60);
  const marked = read(rising, 700, [['isolated', FILLED_S]]).spells.at(-1);
  expect(marked).toMatchObject({ seenS: FILLED_S, stage: { sinceS: FILLED_S } });
});
