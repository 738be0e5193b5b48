/** From how many readings on a rise that nobody marked is doubted, and how the stages told so far are kept. */
import type { Stage, StageName } from '../../../../web/analysis/conclusions.ts';
import { alternativesOfRise } from '../../../../web/analysis/stages/rise-certainty.ts';
import { Spells } from '../../../../web/analysis/stages/spells.ts';
import { Trace } from '../../../../web/analysis/stages/trace.ts';
import { describe, expect, test } from 'vitest';

describe('a rise that nobody marked and that stands still', () => {
  /** From 0 s, for 90 s: so many readings in its first third, and in the rest. */
  const read = (early: number, late: number, lengthS = 90) => {
    const times = [
      ...Array.from({ length: early }, (_, n) => ((n + 0.5) * lengthS) / 3 / early),
      ...Array.from({ length: late }, (_, n) => lengthS / 3 + ((n + 0.5) * lengthS) / 1.5 / late),
    ];
    const bins = times.map((elapsedS) => {
      return { elapsedS, pressurePa: 30, count: 1, overRange: 0, temperatureC: null };
    });
    return alternativesOfRise(new Trace(bins), 0, lengthS);
  };
  const DOUBTED = ['pull_down', 'pump_stopped'];

  test('is doubted from a minute, three early and six later readings on', () => {
    expect(read(3, 6)).toEqual(DOUBTED);
    expect(read(3, 6, 60)).toEqual(DOUBTED);
    expect(read(2, 6)).toEqual(['pump_stopped']);
    expect(read(3, 5)).toEqual(['pump_stopped']);
    expect(read(20, 40, 59)).toEqual(['pump_stopped']);
    expect(read(0, 40)).toEqual(['pump_stopped']);
    expect(read(20, 0)).toEqual(['pump_stopped']);
  });
});

describe('the stages told so far', () => {
  const stage = (name: StageName, sinceS: number): Stage => ({
    ...{ name, sinceS, recognisedBy: 'curve', alternatives: [] },
  });

  test('begin with waiting, sure of nothing else', () => {
    const spells = new Spells();
    expect(spells.count).toBe(1);
    expect(spells.all).toEqual([{ stage: stage('waiting', 0), seenS: 0 }]);
  });

  test('follow one another, are given another name, and are taken back', () => {
    const spells = new Spells();
    spells.begin(stage('pull_down', 10), 15);
    spells.begin(stage('nitrogen_break', 20), 30);
    expect(spells.stage).toEqual(stage('nitrogen_break', 20));
    spells.rename(['vented', 'pump_stopped']);
    expect(spells.count).toBe(3);
    expect(spells.all.at(-1)).toEqual({
      stage: { ...stage('vented', 20), alternatives: ['pump_stopped'] },
      seenS: 30,
    });
    spells.takeBackTo(2);
    expect(spells.stage).toEqual(stage('pull_down', 10));
  });

  test('of another are gone on from, and stay there', () => {
    const [one, other] = [new Spells(), new Spells()];
    other.begin(stage('pull_down', 10), 15);
    one.begin(stage('rise', 5), 6);
    one.become(other);
    expect(one.all).toEqual(other.all);
    one.begin(stage('rise', 20), 25);
    expect(other.stage).toEqual(stage('pull_down', 10));
    other.takeBackTo(1);
    expect(one.count).toBe(3);
  });
});
