/** What is kept of evacuations that are over changes no conclusion. */
import type { SheetEntry } from '../../../../protocol/sheet.ts';
import { tripleTold } from '../../../../web/analysis/cycles/triple-told.ts';
import { History } from '../../../../web/analysis/readings/history.ts';
import { manyCycles } from '../../../support/many-cycles.ts';
import { expect, test } from 'vitest';

const { points, marks, endS } = manyCycles(3);
const ENTRIES: readonly SheetEntry[] = [{ elapsedS: 0, fields: { volumeM3: 0.005 } }];

function historyUntil(untilS: number): History {
  const history = new History();
  for (const point of points) if (point.elapsedS <= untilS) history.insert(point);
  return history;
}

/** As it is judged on a page, while readings come. */
function asItCame(): History {
  const history = new History();
  for (const point of points) {
    history.insert(point);
    if (point.elapsedS % 90 === 89) tripleTold(history, marks, ENTRIES, point.elapsedS);
  }
  return history;
}

test('as readings come it is the same as judged from nothing', () => {
  const history = new History();
  let looks = 0;
  for (const point of points) {
    history.insert(point);
    if (point.elapsedS % 155 !== 154) continue;
    looks += 1;
    const fresh = tripleTold(historyUntil(point.elapsedS), marks, ENTRIES, point.elapsedS);
    expect(tripleTold(history, marks, ENTRIES, point.elapsedS)).toEqual(fresh);
  }
  expect(looks).toBeGreaterThan(10);
});

test('a late reading, another sheet and another mark are seen in what is over', () => {
  const nowS = endS - 1;
  const history = asItCame();
  const before = tripleTold(history, marks, ENTRIES, nowS);
  // From the sensor's store, of the first evacuation: ten seconds much deeper than anything else.
  const comeLate = (one: History): History => {
    for (let late = 0; late < 10; late += 1) {
      one.insert({ elapsedS: 280.5 + late, pressurePa: 5, condition: 'ok', temperatureC: 20 });
    }
    return one;
  };
  comeLate(history);
  const fresh = () => comeLate(historyUntil(nowS));
  const after = tripleTold(history, marks, ENTRIES, nowS);
  expect(after).toEqual(tripleTold(fresh(), marks, ENTRIES, nowS));
  expect(after.cycles[0]?.depthPa).toBeLessThan(before.cycles[0]?.depthPa ?? 0);
  const larger = [...ENTRIES, { elapsedS: 1, fields: { volumeM3: 0.05 } }];
  expect(tripleTold(history, marks, larger, nowS)).toEqual(
    tripleTold(fresh(), marks, larger, nowS),
  );
  const fewer = marks.filter(({ kind, elapsedS }) => kind !== 'isolated' || elapsedS > 400);
  const unheld = tripleTold(history, fewer, larger, nowS);
  expect(unheld).toEqual(tripleTold(fresh(), fewer, larger, nowS));
  expect(unheld).not.toEqual(after);
});
