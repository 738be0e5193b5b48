/** The stages of a recording, told from its end. */
import { expect, test } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import { judge } from '../../../web/analysis/judge.ts';
import { passages } from '../../../web/analysis/passages.ts';
import { historyOf } from '../../support/invented-curves.ts';

const mark = (id: number, kind: MarkKind, elapsedS: number): Mark => ({
  id,
  kind,
  elapsedS,
  text: '',
  madeBy: 'hand',
});

/** Down to 20 Pa, a hold with a leak, down again, and a tight hold. */
function pressureAt(elapsedS: number): number {
  if (elapsedS < 600) return 20 + 2000 * Math.exp(-elapsedS / 60);
  if (elapsedS < 1200) return 20 + (elapsedS - 600) * 0.1;
  if (elapsedS < 1800) return 20 + 60 * Math.exp(-(elapsedS - 1200) / 60);
  return 20;
}

const history = historyOf(
  Array.from({ length: 2401 }, (_, elapsedS) => ({
    elapsedS,
    pressurePa: pressureAt(elapsedS),
    condition: 'ok' as const,
    temperatureC: null,
  })),
);
const marks = [
  mark(1, 'pump_on', 10),
  mark(2, 'isolated', 600),
  mark(3, 'reopened', 1200),
  mark(4, 'isolated', 1800),
];
const judgeAt = (nowS: number) => judge(history, marks, DEFAULT_SHEET, nowS);

test('each stage is told once, in order, and ends where the next begins', () => {
  const found = passages(judgeAt, 2400);
  const names = found.map(({ conclusions }) => conclusions.stage.name);
  expect(names.filter((name) => name === 'rise')).toHaveLength(2);
  expect(names.slice(0, 2)).toEqual(['waiting', 'pull_down']);
  expect(names.at(-1)).toBe('rise');
  for (const [at, { untilS }] of found.entries()) {
    const next = found[at + 1];
    expect(untilS).toBe(next?.conclusions.stage.sinceS ?? 2400);
  }
});

test('each hold is judged at its own end, and the last one as the end itself', () => {
  const holds = passages(judgeAt, 2400).flatMap(({ conclusions }) =>
    conclusions.stage.name === 'rise' ? [conclusions.rise] : [],
  );
  expect(holds.map((rise) => rise?.verdict)).toEqual(['leak', 'tight_dry']);
  expect(holds[0]).toEqual(judgeAt(1198).rise);
  expect(holds[1]).toEqual(judgeAt(2400).rise);
});

test('a recording without a pull-down has one stage', () => {
  const nothing = historyOf([]);
  const found = passages((nowS) => judge(nothing, [], DEFAULT_SHEET, nowS), 100);
  expect(found.map(({ conclusions }) => conclusions.stage.name)).toEqual(['waiting']);
});
