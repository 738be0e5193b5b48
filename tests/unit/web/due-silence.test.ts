/** A sensor's silence and its battery: said once, and not of what was never there. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { SourcePhase } from '../../../protocol/source-state.ts';
import { dueBattery } from '../../../web/alerts/due-batteries.ts';
import { dueSilence, NO_SILENCE } from '../../../web/alerts/due-silence.ts';

type Look = readonly [nowS: number, phase: SourcePhase];

function saidIn(looks: readonly Look[], clockRate = 1, before = NO_SILENCE) {
  let silence = before;
  return looks.flatMap(([nowS, phase]) => {
    const found = dueSilence(phase, nowS * 1000, clockRate, silence);
    silence = found.silence;
    return found.due === null ? [] : [[nowS, found.due]];
  });
}
const during = (fromS: number, toS: number, phase: SourcePhase): Look[] =>
  Array.from({ length: toS - fromS }, (_, i) => [fromS + i, phase]);

describe('a silence', () => {
  test('of half a minute is said, and so is its end, each once', () => {
    const looks = [
      ...during(0, 10, 'live'),
      ...during(10, 15, 'stale'),
      ...during(15, 100, 'lost'),
      ...during(100, 105, 'connecting'),
      ...during(105, 110, 'backfilling'),
      ...during(110, 200, 'live'),
    ];
    expect(saidIn(looks)).toEqual([
      [40, 'lost'],
      [105, 'back'],
    ]);
  });

  test('of less is a hiccup', () => {
    expect(saidIn([[0, 'live'], ...during(1, 30, 'lost'), [30, 'live']])).toEqual([]);
  });

  test('of a sensor that never came is none', () => {
    expect(saidIn([...during(0, 100, 'searching'), ...during(100, 200, 'connecting')])).toEqual([]);
  });

  test('of one that was there when the adapter went is one', () => {
    expect(saidIn([[0, 'live'], ...during(1, 60, 'unavailable')])).toEqual([[31, 'lost']]);
  });

  test('said before the page was loaded anew is not said again, its end is', () => {
    const said = { ...NO_SILENCE, said: true };
    expect(saidIn([...during(0, 100, 'gone'), [100, 'live']], 1, said)).toEqual([[100, 'back']]);
  });

  test('is as long in data time where a rehearsal runs faster, but no flicker', () => {
    expect(saidIn([[0, 'live'], ...during(1, 30, 'lost')], 5)).toEqual([[7, 'lost']]);
    expect(saidIn([[0, 'live'], ...during(1, 30, 'lost')], 120)).toEqual([[3, 'lost']]);
  });

  test('while a rehearsal is paused is none', () => {
    expect(saidIn([[0, 'live'], ...during(1, 500, 'paused'), [500, 'live']])).toEqual([]);
  });

  test('whatever the phases are: lost and back by turns, lost first', () => {
    const phase = fc.constantFrom<SourcePhase>(
      'live',
      'weak',
      'stale',
      'lost',
      'gone',
      'connecting',
      'found',
      'searching',
      'paused',
      'unavailable',
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.integer({ min: 1, max: 90 }), phase)), (spells) => {
        let nowS = 0;
        const looks = spells.flatMap(([lengthS, spell]) => {
          nowS += lengthS;
          return during(nowS - lengthS, nowS, spell);
        });
        const said = saidIn(looks).map(([, due]) => due);
        expect(said).toEqual(said.map((_, i) => (i % 2 === 0 ? 'lost' : 'back')));
      }),
    );
  });
});

describe('a battery', () => {
  const fact = (percent: number) =>
    ({ kind: 'sensor_battery', atS: 1, sinceS: 1, sensor: 'Roof', percent }) as const;

  function saidAt(percents: readonly (number | null)[]): number[] {
    let said: readonly string[] = [];
    return percents.flatMap((percent) => {
      const found = dueBattery({ of: '0', percent, fact }, said);
      said = found.said;
      return found.due.map((due) => (due.kind === 'sensor_battery' ? due.percent : NaN));
    });
  }

  test('is said once, below 15 %, however it wavers', () => {
    expect(saidAt([40, 16, 15, 14, 16, 14, 9, 20, 5])).toEqual([14]);
  });

  test('charged, it is said again', () => {
    expect(saidAt([14, 80, 14])).toEqual([14, 14]);
  });

  test('of which nobody knows is not said', () => {
    expect(saidAt([null, null])).toEqual([]);
  });
});
