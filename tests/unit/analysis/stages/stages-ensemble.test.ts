/**
 * Stages of many invented sessions, told by the curve alone. What shows in no curve is among them (a
 * hold that stands still, a pump that stops behind its own valve): no share here is to be 100 %.
 */
import type { StageName } from '../../../../web/analysis/conclusions.ts';
import type { SessionKind } from '../../../support/invented-session.ts';
import { inventedTruth } from '../../../support/invented-truth.ts';
import { scoreStages, type StageScore, type StageScores } from '../../../support/stage-score.ts';
import { expect, test } from 'vitest';

const EVERY_S = 20;

function scored(kind: SessionKind, seeds: number): StageScores {
  const truths = Array.from({ length: seeds }, (_, at) => inventedTruth(900 + at, kind));
  return scoreStages(truths, { everyS: EVERY_S, marked: false });
}

const wrongly = (scores: StageScores, stages: readonly StageName[]) =>
  stages.reduce((sum, stage) => sum + (scores.get(stage)?.wronglyTold ?? 0), 0);

/** Told, or named second: parts of one. */
function shares({ cases, recognised, asAlternative }: StageScore) {
  return { told: recognised / cases, named: (recognised + asAlternative) / cases };
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1] ?? NaN;
}

test('no hold, no stop and no filling is told of twelve runs that were only pumped', () => {
  const scores = scored('only_pumping', 12);
  expect(wrongly(scores, ['rise', 'pump_stopped', 'nitrogen_break', 'vented'])).toBe(0);
  expect(scores.get('pull_down')?.recognised).toBe(12);
});

test('holds are told, soon and to some seconds', () => {
  const rise = scored('hold', 24).get('rise');
  if (!rise) throw new Error('no holds');
  expect(shares(rise).told).toBeGreaterThanOrEqual(0.75);
  // Looked at each 20 s.
  expect(median(rise.delaysS)).toBeLessThanOrEqual(40);
  expect(median(rise.errorsS)).toBeLessThanOrEqual(5);
});

test('fillings are told as such, if not always as which', () => {
  const broken = scored('nitrogen_break', 12).get('nitrogen_break');
  const vented = scored('vented', 12).get('vented');
  if (!broken || !vented) throw new Error('no fillings');
  expect(shares(broken).named).toBeGreaterThanOrEqual(0.8);
  expect(shares(vented).named).toBeGreaterThanOrEqual(0.8);
  expect(median([...broken.errorsS, ...vented.errorsS])).toBeLessThanOrEqual(3);
});

test('a pump that stands still is told, or named beside the valve', () => {
  const stopped = scored('pump_stops', 16).get('pump_stopped');
  if (!stopped) throw new Error('no pump stopped');
  expect(shares(stopped).named).toBeGreaterThanOrEqual(0.75);
});

test('with marks nothing is missed', () => {
  const truths = [...Array(6).keys()].map((at) => inventedTruth(950 + at, 'repeated_holds'));
  const scores = scoreStages(truths, { everyS: EVERY_S, marked: true });
  for (const stage of ['rise', 'pull_down'] as const) {
    expect(scores.get(stage)?.recognised).toBe(scores.get(stage)?.cases);
    expect(Math.max(...(scores.get(stage)?.errorsS ?? []))).toBe(0);
  }
});
