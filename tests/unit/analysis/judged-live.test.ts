/** What is kept from one judging to the next changes no conclusion: the same to the digit as judged from nothing. */
import type { Mark } from '../../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { ALL_SCENARIOS } from '../../../simulators/scenarios/all-scenarios.ts';
import { play } from '../../../simulators/scenarios/play.ts';
import { judge } from '../../../web/analysis/judge.ts';
import { pumpedSamples } from '../../../web/analysis/pull-down/pumped-samples.ts';
import { History, type HistoryPoint } from '../../../web/analysis/readings/history.ts';
import { inRange } from '../../../web/analysis/readings/in-range.ts';
import { samplesFromBins } from '../../../web/analysis/readings/samples.ts';
import { holdReadings } from '../../../web/analysis/rise/hold-readings.ts';
import { stageBins } from '../../../web/analysis/stages/stage-bins.ts';
import { stagesSoFar } from '../../../web/analysis/stages/stages-so-far.ts';
import { recogniseStages } from '../../../web/analysis/stages/stages.ts';
import { historyOf } from '../../support/invented-curves.ts';
import { jobSession } from '../../support/job-sessions.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

/** Often enough that a spike is the latest reading at some look, and its forerunner at another. */
const LOOK_EVERY_S = 6;
const DEPTH_PA = DEFAULT_SHEET.targetPa;

/** A stretch of a session, as shares of all of it, that is told later, not at all, or is out of range. */
const anyStretch = fc.record({
  fromShare: fc.double({ min: 0, max: 0.9, noNaN: true }),
  lengthS: fc.integer({ min: 1, max: 400 }),
  fate: fc.constantFrom('late' as const, 'lost' as const, 'over_range' as const),
});
type Stretch = typeof anyStretch extends fc.Arbitrary<infer T> ? T : never;

/** How far the session goes on until it is looked at next, s; below 0 the past is asked for. */
const anySteps = fc.array(fc.oneof(fc.constant(2), fc.integer({ min: -40, max: 300 })), {
  minLength: 5,
  maxLength: 40,
});
const anyHand = fc.constantFrom('none' as const, 'at once' as const, 'late' as const);

interface Arriving {
  readonly point: HistoryPoint;
  readonly arrivesS: number;
}

/** What comes of the points, in the order in which they arrive. */
function arriving(points: readonly HistoryPoint[], stretches: readonly Stretch[]): Arriving[] {
  const endS = points.at(-1)?.elapsedS ?? 0;
  const all = points.flatMap((point): Arriving[] => {
    const { elapsedS } = point;
    const hit = stretches.find(({ fromShare, lengthS }) => {
      const fromS = fromShare * endS;
      return elapsedS >= fromS && elapsedS < fromS + lengthS;
    });
    switch (hit?.fate) {
      case undefined:
        return [{ point, arrivesS: elapsedS }];
      case 'lost':
        return [];
      case 'late':
        return [{ point, arrivesS: hit.fromShare * endS + 2 * hit.lengthS }];
      case 'over_range':
        return [
          { point: { ...point, pressurePa: null, condition: 'over_range' }, arrivesS: elapsedS },
        ];
    }
  });
  return all.sort((a, b) => a.arrivesS - b.arrivesS);
}

/** Plays a session, and looks at it again and again. */
function lookAgain(
  session: { readonly readings: readonly Arriving[]; readonly marks: readonly Mark[] },
  stepsS: readonly number[],
  look: (
    live: History,
    fresh: () => History,
    marks: readonly Mark[],
    nowS: number,
    comeS: number,
  ) => void,
): void {
  const live = new History();
  let [next, comeS] = [0, 0];
  const came: HistoryPoint[] = [];
  for (const stepS of stepsS) {
    const nowS = Math.max(comeS + stepS, 0);
    comeS = Math.max(comeS, nowS);
    for (; (session.readings[next]?.arrivesS ?? Infinity) <= comeS; next += 1) {
      const point = session.readings[next]?.point;
      if (!point) break;
      live.insert(point);
      came.push(point);
    }
    const marks = session.marks.filter(({ elapsedS }) => elapsedS <= nowS);
    look(live, () => historyOf(came), marks, nowS, comeS);
  }
}

/** The marks of a job; set late, they come once much has been read that was after them. */
function marksAt(marks: readonly Mark[], hand: 'none' | 'at once' | 'late', comeS: number): Mark[] {
  if (hand === 'none') return [];
  const delayS = hand === 'late' ? 90 : 0;
  return marks.filter(({ elapsedS }) => elapsedS + delayS <= comeS);
}

describe('what is kept of a session', () => {
  test('tells the same stages as all of it read anew', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9999 }),
        fc.array(anyStretch, { maxLength: 3 }),
        anySteps,
        anyHand,
        (seed, stretches, stepsS, hand) => {
          const { points, marks } = jobSession(seed);
          const session = { readings: arriving(points, stretches), marks };
          lookAgain(session, stepsS, (live, _, before, nowS, comeS) => {
            const set = marksAt(before, hand, comeS);
            const bins = stageBins(live, nowS);
            const { stages, latest } = stagesSoFar(live, set, DEPTH_PA, nowS);
            expect(stages).toEqual(recogniseStages(bins, set, DEPTH_PA, nowS));
            expect(latest).toEqual(bins.at(-1) ?? null);
          });
        },
      ),
      { numRuns: 120, seed: 31 },
    );
  });

  test.each(ALL_SCENARIOS.filter((_, i) => i % 3 === 0))(
    'tells the same stages of a rehearsal, $card.place, spikes among it',
    (scenario) => {
      const live = new History();
      let nowS = LOOK_EVERY_S;
      for (const row of play(scenario, 5).rows) {
        // A whole second now and then is half as high again; a blank of the sensor's range follows it.
        const second = Math.ceil(row.elapsedS) % 31;
        const isSpike = second === 7 && row.pressurePa !== null;
        const pressurePa = isSpike ? 1.5 * row.pressurePa : row.pressurePa;
        const isBlank = second === 12 && row.elapsedS % 2000 < 400;
        while (row.elapsedS > nowS) {
          const bins = stageBins(live, nowS);
          expect(stagesSoFar(live, [], DEPTH_PA, nowS).stages).toEqual(
            recogniseStages(bins, [], DEPTH_PA, nowS),
          );
          nowS += LOOK_EVERY_S;
        }
        const shownPa = isBlank ? null : pressurePa;
        const condition = shownPa === null ? 'over_range' : 'ok';
        live.insert({ elapsedS: row.elapsedS, pressurePa: shownPa, condition, temperatureC: null });
      }
    },
  );

  test('has the same samples of a pull-down as the history', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9999 }),
        fc.array(anyStretch, { maxLength: 3 }),
        anySteps,
        fc.integer({ min: -1, max: 300 }),
        (seed, stretches, stepsS, fromS) => {
          const { points } = jobSession(seed);
          const session = { readings: arriving(points, stretches), marks: [] };
          lookAgain(session, stepsS, (live, _, __, nowS) => {
            const { samples } = pumpedSamples(live, fromS, nowS);
            expect(samples).toEqual(samplesFromBins(live.bins(fromS, nowS)));
          });
        },
      ),
      { numRuns: 120, seed: 32 },
    );
  });

  test('has the same readings of a hold as the history, whatever was asked for before', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9999 }),
        fc.array(anyStretch, { maxLength: 3 }),
        anySteps,
        fc.integer({ min: -1, max: 300 }),
        (seed, stretches, stepsS, fromS) => {
          const { points } = jobSession(seed);
          const session = { readings: arriving(points, stretches), marks: [] };
          lookAgain(session, stepsS, (live, _, __, nowS) => {
            const bins = inRange(live.bins(fromS, nowS));
            const told = holdReadings(live, fromS, nowS);
            expect(told.bins).toEqual(bins);
            expect(told.samples).toEqual(samplesFromBins(bins));
          });
        },
      ),
      { numRuns: 40, seed: 34 },
    );
  });

  test('stays right where bins become wider: after an hour and after eighteen', () => {
    const live = new History();
    for (let elapsedS = 0; elapsedS < 67_000; elapsedS += 5) {
      // A silence of twenty minutes, and a bend now and then.
      if (elapsedS > 9000 && elapsedS < 10_200) continue;
      const pressurePa = 40 + 9e4 * Math.exp(-elapsedS / 60) + 5 * Math.sin(elapsedS / 700);
      live.insert({ elapsedS, pressurePa, condition: 'ok', temperatureC: 21 });
      const isNearChange = (elapsedS > 4050 && elapsedS < 4200) || elapsedS > 65_400;
      if (elapsedS % (isNearChange ? 10 : 710) !== 0 || elapsedS > 65_700) continue;
      const bins = stageBins(live, elapsedS);
      expect(stagesSoFar(live, [], DEPTH_PA, elapsedS).stages).toEqual(
        recogniseStages(bins, [], DEPTH_PA, elapsedS),
      );
      const ofHold = live.bins(3, elapsedS);
      expect(pumpedSamples(live, 3, elapsedS).samples).toEqual(samplesFromBins(ofHold));
      expect(holdReadings(live, 3, elapsedS).bins).toEqual(ofHold);
    }
  });

  test('draws the same conclusions as judged from nothing', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9999 }),
        fc.array(anyStretch, { maxLength: 2 }),
        anySteps,
        anyHand,
        (seed, stretches, stepsS, hand) => {
          const { points, marks } = jobSession(seed);
          const session = { readings: arriving(points, stretches), marks };
          lookAgain(session, stepsS, (live, fresh, before, nowS, comeS) => {
            const set = marksAt(before, hand, comeS);
            const kept = judge(live, set, DEFAULT_SHEET, nowS);
            expect(kept).toEqual(judge(fresh(), set, DEFAULT_SHEET, nowS));
          });
        },
      ),
      { numRuns: 25, seed: 33 },
    );
  });
});
