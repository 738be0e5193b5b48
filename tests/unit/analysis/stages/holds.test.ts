/** All holds of a job with the pumping between, as data. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import { holdsIn, isIsolationSure } from '../../../../web/analysis/stages/holds.ts';
import type { Spell } from '../../../../web/analysis/stages/spells.ts';
import { expect, test } from 'vitest';

const spell = (name: Spell['stage']['name'], sinceS: number): Spell => ({
  stage: { name, sinceS, recognisedBy: 'mark', alternatives: [] },
  seenS: sinceS,
});
const mark = (kind: MarkKind, elapsedS: number): Mark => ({
  id: 1,
  kind,
  elapsedS,
  text: '',
  madeBy: 'hand',
});

const TWICE = [
  spell('waiting', 0),
  spell('pull_down', 100),
  spell('rise', 1000),
  spell('pull_down', 2000),
  spell('rise', 2600),
];

test('each with its end, and how long it was pumped before', () => {
  expect(holdsIn(TWICE, [], 3000)).toMatchObject([
    { fromS: 1000, toS: 2000, pumpedS: 900, repeats: false },
    { fromS: 2600, toS: 3000, pumpedS: 600, repeats: true },
  ]);
});

test('what was filled, tightened or opened between is no repeat', () => {
  const filled = [...TWICE.slice(0, 3), spell('nitrogen_break', 1500), ...TWICE.slice(3)];
  expect(holdsIn(filled, [], 3000).map(({ repeats }) => repeats)).toEqual([false, false]);
  for (const kind of ['joints_tightened', 'sections_opened', 'stub_shut'] as const) {
    const { repeats } = holdsIn(TWICE, [mark(kind, 2100)], 3000).at(-1) ?? {};
    expect(repeats, kind).toBe(false);
  }
  const later = holdsIn(TWICE, [mark('joints_tightened', 2900)], 3000).at(-1);
  expect(later?.repeats).toBe(true);
});

test('a hold that begins anew without pumping repeats nothing', () => {
  const anew = [...TWICE.slice(0, 3), spell('rise', 1500)];
  expect(holdsIn(anew, [], 2000)).toMatchObject([
    { fromS: 1000, toS: 1500 },
    { fromS: 1500, toS: 2000, pumpedS: 0, repeats: false },
  ]);
});

test('a mark is sure, and a curve as long as pumping does not fit it as well', () => {
  const seen = (alternatives: Spell['stage']['alternatives']) =>
    isIsolationSure({ name: 'rise', sinceS: 0, recognisedBy: 'curve', alternatives });
  expect(isIsolationSure(spell('rise', 0).stage)).toBe(true);
  expect(seen(['pump_stopped'])).toBe(true);
  expect(seen(['pull_down', 'pump_stopped'])).toBe(false);
});
