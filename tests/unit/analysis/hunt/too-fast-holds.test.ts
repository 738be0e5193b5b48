/** Holds that rose as if they were filled, and what a stub that does so says. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import type { Stage, StageName } from '../../../../web/analysis/conclusions.ts';
import type { HoldAlone } from '../../../../web/analysis/hunt/hunt-hold.ts';
import { ofFastStub, tooFastHolds } from '../../../../web/analysis/hunt/too-fast-holds.ts';
import { describe, expect, test } from 'vitest';

const stage = (name: StageName, sinceS: number, more: Partial<Stage> = {}): Stage => ({
  ...{ name, sinceS, recognisedBy: 'curve', alternatives: [] },
  ...more,
});
const mark = (kind: MarkKind, elapsedS: number): Mark => ({
  ...{ id: elapsedS, kind, elapsedS, text: '', madeBy: 'hand' },
});
const SHUT = stage('rise', 500, { recognisedBy: 'mark' });
const STAGES = [stage('waiting', 0), stage('pull_down', 100), SHUT, stage('vented', 505)];
const MARKS = [mark('pump_on', 100), mark('isolated', 500)];
const NOW_S = 900;
const found = (stages: readonly Stage[] = STAGES, marks: readonly Mark[] = MARKS, nowS = NOW_S) =>
  tooFastHolds({ stages, holds: [] }, marks, nowS).map(({ fromS, toS }) => [fromS, toS]);

describe('a hold that rose too fast', () => {
  test('lasts from the valve that was marked to now', () => {
    expect(tooFastHolds({ stages: STAGES, holds: [] }, MARKS, NOW_S)).toEqual([
      {
        ...{ fromS: 500, toS: NOW_S, recognisedBy: 'mark', isolationSure: true },
        ...{ pumpedS: 0, repeats: false },
      },
    ]);
  });

  test.each(['nitrogen_break', 'vented'] as const)('may look like %s', (name) => {
    expect(found([...STAGES.slice(0, 3), stage(name, 505)])).toEqual([[500, NOW_S]]);
  });

  test.each(['isolated', 'stub_shut', 'sections_shut'] as const)('is shut by %s', (kind) => {
    expect(found(STAGES, [mark('pump_on', 100), mark(kind, 500)])).toHaveLength(1);
  });

  test('ends with the next stage, or where the sensor sees something else', () => {
    expect(found([...STAGES, stage('pull_down', 700)])).toEqual([[500, 700]]);
    expect(found(STAGES, [...MARKS, mark('stub_opened', 640)])).toEqual([[500, 640]]);
    expect(found(STAGES, [...MARKS, mark('joints_tightened', 640), mark('note', 600)])).toEqual([
      [500, 640],
    ]);
    expect(found(STAGES, [...MARKS, mark('stub_opened', 950)])).toEqual([[500, NOW_S]]);
  });

  test('follows pumping, also over other holds', () => {
    const again = [stage('pull_down', 100), stage('rise', 300), SHUT, stage('vented', 505)];
    expect(found(again)).toHaveLength(1);
    const deep = [stage('at_depth', 100), stage('pump_stopped', 300), SHUT, stage('vented', 505)];
    expect(found(deep)).toHaveLength(1);
  });
});

describe('none', () => {
  test('is what came after half a minute of holding', () => {
    const after = (heldS: number) => found([...STAGES.slice(0, 3), stage('vented', 500 + heldS)]);
    expect(after(29)).toHaveLength(1);
    expect(after(30)).toEqual([]);
  });

  test('is what nobody shut by hand at that moment', () => {
    expect(found(STAGES, [mark('pump_on', 100)])).toEqual([]);
    expect(found(STAGES, [mark('pump_on', 100), mark('isolated', 499)])).toEqual([]);
    expect(found(STAGES, [mark('pump_on', 100), mark('stub_opened', 500)])).toEqual([]);
    const byCurve = [...STAGES.slice(0, 2), stage('rise', 500), stage('vented', 505)];
    expect(found(byCurve)).toEqual([]);
  });

  test('is what was marked as filled, or follows no pumping', () => {
    const filled = stage('nitrogen_break', 505, { recognisedBy: 'mark' });
    expect(found([...STAGES.slice(0, 3), filled])).toEqual([]);
    const waiting = [stage('waiting', 0), SHUT, stage('vented', 505)];
    expect(found(waiting)).toEqual([]);
    expect(found([SHUT, stage('vented', 505)])).toEqual([]);
    expect(found([stage('vented', 505)])).toEqual([]);
    expect(found([...STAGES.slice(0, 3), stage('pull_down', 505)])).toEqual([]);
    const afterStop = [stage('pull_down', 100), stage('pump_stopped', 500), stage('vented', 505)];
    expect(found(afterStop)).toEqual([]);
  });

  test.each(['nitrogen_break', 'charge_released', 'sensor_isolated'] as const)(
    'is what %s explains before anything is pumped again',
    (kind) => {
      expect(found(STAGES, [...MARKS, mark(kind, 560)])).toEqual([]);
      expect(found(STAGES, [...MARKS, mark(kind, 560), mark('pump_on', 700)])).toEqual([]);
      expect(found(STAGES, [...MARKS, mark('reopened', 540), mark(kind, 560)])).toHaveLength(1);
      expect(found(STAGES, [...MARKS, mark(kind, 450)])).toHaveLength(1);
      expect(found(STAGES, [...MARKS, mark(kind, 950)])).toHaveLength(1);
    },
  );
});

describe('a stub that rises as if it were filled', () => {
  const alone = (
    curve: HoldAlone['curve'],
    leakPaPerS: HoldAlone['leakPaPerS'] = null,
  ): HoldAlone => ({
    ...{ fromS: 0, toS: 100, part: { kind: 'stub' }, verdict: 'leaks', tooFast: true },
    ...{ leakChance: 0.95, volumeM3: null, leakRatePaM3PerS: null, leakPaPerS, curve },
  });
  const whole = alone([], { estimate: 1, low: 0.5, high: 2 });
  const rising = (perS: number) => [
    { heldS: 5, pressurePa: 50 },
    { heldS: 30, pressurePa: 70 },
    { heldS: 45, pressurePa: 50 + 40 * perS },
  ];

  test('is suspected where it does so three times as fast as the whole may', () => {
    expect(ofFastStub(alone(rising(6.5)), whole)).toBe('suspect');
    expect(ofFastStub(alone(rising(5.5)), whole)).toBe('undecided');
    expect(ofFastStub(alone(rising(6)), whole)).toBe('undecided');
    expect(ofFastStub(alone(rising(-6.5)), whole)).toBe('undecided');
  });

  test('says nothing without a curve, or without the whole', () => {
    expect(ofFastStub(alone([]), whole)).toBe('undecided');
    expect(ofFastStub(alone(rising(50)), null)).toBe('undecided');
    expect(ofFastStub(alone(rising(50)), alone([]))).toBe('undecided');
  });
});
