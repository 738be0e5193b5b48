/** A curve that grows by pieces, and readers of it that go on from one another. */
import { ALL_SCENARIOS } from '../../../../simulators/scenarios/all-scenarios.ts';
import { play } from '../../../../simulators/scenarios/play.ts';
import { History } from '../../../../web/analysis/readings/history.ts';
import { BendWatch } from '../../../../web/analysis/stages/bend-watch.ts';
import type { Bend } from '../../../../web/analysis/stages/bend.ts';
import { StageReader } from '../../../../web/analysis/stages/stage-reader.ts';
import { Trace } from '../../../../web/analysis/stages/trace.ts';
import { seeded } from '../../../support/invented-curves.ts';
import { expect, test } from 'vitest';

const DEPTH_PA = 67;

/** A rehearsal's bins with spikes and blanks among them. */
function binsOf(place: number) {
  const scenario = ALL_SCENARIOS[place];
  if (!scenario) throw new Error('no such rehearsal');
  const random = seeded(place + 1);
  const history = new History();
  for (const { elapsedS, pressurePa } of play(scenario, 9).rows) {
    const chance = random();
    const isBlank = pressurePa === null || chance < 0.01;
    const shownPa = isBlank ? null : pressurePa * (chance > 0.99 ? 1.6 : 1);
    const condition = isBlank ? 'over_range' : 'ok';
    history.insert({ elapsedS, pressurePa: shownPa, condition, temperatureC: null });
  }
  // Of an hour at most, second by second.
  return history.bins(-1, Math.min(history.lastS ?? 0, 3600));
}

const someBins = [0, 4, 7, 11].map((place) => binsOf(place));

test.each(someBins.map((bins) => ({ bins })))(
  'a curve that grew by pieces, some of them taken back, is that of all of it',
  ({ bins }) => {
    const whole = new Trace(bins);
    const grown = new Trace([]);
    const random = seeded(3);
    const inRange = (count: number) =>
      bins.slice(0, count).filter(({ pressurePa }) => pressurePa !== null).length;
    for (let from = 0; from < bins.length;) {
      const to = Math.min(from + 1 + Math.floor(random() * 40), bins.length);
      grown.replaceFrom(inRange(from), bins.slice(from, to));
      from = to === bins.length ? to : to - Math.floor(random() * Math.min(to - from, 5));
    }
    expect(grown.length).toBe(whole.length);
    for (let i = 0; i <= whole.length; i += 1) {
      const [one, other] = [grown, whole].map((trace) => [
        trace.timeS(i),
        trace.pressurePa(i),
        trace.log(i),
        trace.scatter(i),
        trace.line(i >> 1, Math.max(i, 1)),
      ]);
      expect(one).toEqual(other);
    }
  },
);

test.each(someBins.map((bins) => ({ bins })))(
  'a watch for bends is where it was, though others went on from it',
  ({ bins }) => {
    const trace = new Trace(bins);
    const found = (isCopied: boolean): (Bend | null)[] => {
      const watch = new BendWatch(trace, 1);
      return Array.from({ length: trace.length }, (_, index) => {
        if (isCopied && index % 5 === 0) {
          const ahead = new BendWatch(trace, 1);
          ahead.become(watch);
          for (let i = index; i < Math.min(index + 30, trace.length); i += 1) {
            ahead.find(i, (bend) => bend);
          }
        }
        return watch.find(index, (bend) => bend);
      });
    };
    expect(found(true)).toEqual(found(false));
  },
);

test.each(someBins.map((bins) => ({ bins })))(
  'a reader that goes on from another one tells what one tells that read all of it',
  ({ bins }) => {
    const trace = new Trace(bins);
    const kept = new StageReader(trace, DEPTH_PA);
    const whole = new StageReader(trace, DEPTH_PA);
    const ends = bins.map(() => 0);
    let index = 0;
    for (const [i, { pressurePa }] of bins.entries()) {
      ends[i] = index;
      if (pressurePa !== null) index += 1;
    }
    const read = (reader: StageReader, i: number) => {
      const bin = bins[i];
      if (bin?.pressurePa === null) reader.overRange(bin.elapsedS);
      else if (bin) reader.reading(ends[i] ?? 0);
    };
    const told = bins.map((_, i) => {
      read(whole, i);
      return JSON.stringify([whole.spells, whole.rigChanged]);
    });
    for (let i = 0; i < bins.length; i += 1) {
      if (i % 9 === 0) {
        const ahead = new StageReader(trace, DEPTH_PA);
        ahead.become(kept);
        for (let next = i; next < Math.min(i + 120, bins.length); next += 1) {
          read(ahead, next);
          expect(JSON.stringify([ahead.spells, ahead.rigChanged])).toBe(told[next]);
        }
      }
      read(kept, i);
    }
  },
);
