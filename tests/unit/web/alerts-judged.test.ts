/** Alerts on judged readings: whatever spikes there are, no target is called out that was not held. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { dueAlerts } from '../../../web/alerts/due-alerts.ts';
import { NO_ALERTS_GIVEN } from '../../../web/alerts/given-alerts.ts';
import { Judging } from '../../../web/analysis/judging.ts';

const MARKS = [{ id: 1, kind: 'pump_on', elapsedS: 0, text: '', madeBy: 'hand' }] as const;
const LENGTH_S = 400;
const LOOK_EVERY_S = 20;

/** What is called out of a pull-down to a floor, with single readings replaced. */
function calledOut(floorMicron: number, spikes: ReadonlyMap<number, number>): string[] {
  const judging = new Judging();
  let given = NO_ALERTS_GIVEN;
  const called: string[] = [];
  for (let elapsedS = 0; elapsedS <= LENGTH_S; elapsedS += 1) {
    const micron = spikes.get(elapsedS) ?? floorMicron + 700_000 * Math.exp(-elapsedS / 25);
    judging.insert([
      {
        index: elapsedS + 1,
        channel: 0,
        boot: 1,
        sequence: elapsedS,
        elapsedS,
        pressurePa: paFromMicron(micron),
        temperatureC: null,
        condition: 'ok',
      },
    ]);
    if (elapsedS === 0 || elapsedS % LOOK_EVERY_S !== 0) continue;
    const conclusions = judging.conclude(MARKS, DEFAULT_SHEET, []);
    if (conclusions === null) throw new Error('there are readings, and no conclusions');
    const found = dueAlerts(
      {
        conclusions,
        sheet: DEFAULT_SHEET,
        marks: MARKS,
        lossAfter: () => null,
        opening: false,
      },
      given,
    );
    given = found.given;
    called.push(...found.due.map(({ kind }) => kind));
  }
  return called;
}

/** Single readings, at least ten seconds apart. */
const spikes = fc
  .array(
    fc.tuple(
      fc.integer({ min: 1, max: LENGTH_S / 10 - 1 }),
      fc.double({ min: 1, max: 450, noNaN: true }),
    ),
  )
  .map((list) => new Map(list.map(([tenth, micron]) => [tenth * 10, micron])));

test('spikes below the target raise neither target nor depth', () => {
  fc.assert(
    fc.property(spikes, (some) => {
      expect(calledOut(800, some)).toEqual([]);
    }),
    { numRuns: 12 },
  );
});

test('spikes keep neither from being called out, once', () => {
  fc.assert(
    fc.property(spikes, (some) => {
      const up = new Map([...some.keys()].map((atS) => [atS, 20_000]));
      expect(calledOut(120, up)).toEqual(['target', 'depth']);
    }),
    { numRuns: 12 },
  );
});
