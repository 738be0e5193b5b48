/** What is called out while the pump pulls: depth, levelling off, ballast, the pump's battery. */
import { describe, expect, test } from 'vitest';
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import { DEFAULT_SHEET, type Sheet } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { dueAlerts } from '../../../web/alerts/due-alerts.ts';
import { givenAlertsSchema, NO_ALERTS_GIVEN } from '../../../web/alerts/given-alerts.ts';
import type { Conclusions } from '../../../web/analysis/conclusions.ts';
import type { AlertFact } from '../../../web/words/alert-fact.ts';
import { conclusionsWith, forecastWith, inRise } from './invented-conclusions.ts';

interface Look {
  readonly conclusions: Conclusions;
  readonly marks?: readonly Mark[];
  readonly sheet?: Sheet;
}

/** What is due, look by look, with what a browser remembers in between. */
function dueIn(looks: readonly Look[], opening = false) {
  let given = NO_ALERTS_GIVEN;
  return looks.map(({ conclusions, marks = [], sheet = DEFAULT_SHEET }, at) => {
    const lossAfter = () => null;
    const first = opening && at === 0;
    const found = dueAlerts({ conclusions, sheet, marks, lossAfter, opening: first }, given);
    given = givenAlertsSchema.parse(JSON.parse(JSON.stringify(found.given)));
    return found;
  });
}

const facts = (looks: readonly Look[], opening = false): AlertFact[] =>
  dueIn(looks, opening).flatMap(({ due }) => due);

const mark = (kind: MarkKind, elapsedS: number): Mark => ({
  id: elapsedS,
  kind,
  elapsedS,
  text: '',
  madeBy: 'hand',
});

describe('depth to valve off at', () => {
  const at = (nowS: number, pullDownS = 100) =>
    conclusionsWith({ nowS, pullDownS, targetReachedS: 500, isolationDepthReachedS: 700 });

  test('is called out once, above the target of the same moment, and once more in the next pull-down', () => {
    const looks = [at(710), at(720), at(730, 104)].map((conclusions) => ({ conclusions }));
    expect(facts(looks).map(({ kind }) => kind)).toEqual(['target', 'depth']);
    const again = conclusionsWith({
      nowS: 2600,
      pullDownS: 2000,
      targetReachedS: 2400,
      isolationDepthReachedS: 2500,
    });
    expect(facts([...looks, { conclusions: again }]).slice(2)).toEqual([
      { kind: 'target', atS: 2400, sinceS: 2000, targetPa: DEFAULT_SHEET.targetPa },
      { kind: 'depth', atS: 2500, sinceS: 2000, isolateAtPa: DEFAULT_SHEET.isolateAtPa },
    ]);
  });

  test('a deeper one on the sheet is another one, a shallower one is not', () => {
    const sheet = (micron: number) => ({ ...DEFAULT_SHEET, isolateAtPa: paFromMicron(micron) });
    const looks = [250, 150, 300].map((micron) => ({ conclusions: at(710), sheet: sheet(micron) }));
    const depths = facts(looks).filter(({ kind }) => kind === 'depth');
    expect(depths).toMatchObject([
      { isolateAtPa: paFromMicron(250) },
      { isolateAtPa: paFromMicron(150) },
    ]);
  });

  test('is not asked for once the system is valved off', () => {
    const [, later] = dueIn([
      { conclusions: at(710) },
      { conclusions: { ...inRise(), isolationDepthReachedS: 700 } },
    ]);
    expect(later?.due.map(({ kind }) => kind)).not.toContain('depth');
    expect(later?.over).toContain('depth');
  });

  test('that lies above the target waits for the target', () => {
    const sheet = { ...DEFAULT_SHEET, isolateAtPa: paFromMicron(800) };
    const conclusions = conclusionsWith({ isolationDepthReachedS: 300, targetReachedS: null });
    expect(facts([{ conclusions, sheet }])).toEqual([]);
  });
});

describe('levelling off', () => {
  const cause = [{ cause: 'floor', weight: 1 }] as const;
  const look = (nowS: number, outcome: 'levels_off' | 'reaches'): Look => ({
    conclusions: conclusionsWith({
      nowS,
      pressurePa: paFromMicron(800),
      forecast: forecastWith({ outcome, causes: cause }),
    }),
  });
  const flat = (fromS: number, toS: number) =>
    Array.from({ length: (toS - fromS) / 10 + 1 }, (_, i) => look(fromS + 10 * i, 'levels_off'));

  test('is called out once it has stood for two minutes, and once', () => {
    expect(facts(flat(600, 710))).toEqual([]);
    expect(facts(flat(600, 3000))).toMatchObject([{ kind: 'levels_off', atS: 600, sinceS: 100 }]);
  });

  test('a flicker raises nothing, however often', () => {
    const looks = Array.from({ length: 200 }, (_, i) =>
      look(600 + 10 * i, i % 10 === 9 ? 'reaches' : 'levels_off'),
    );
    expect(facts(looks)).toEqual([]);
  });

  test('a moment off it and on again is the same one; five minutes off it are another', () => {
    const briefly = [...flat(600, 800), look(810, 'reaches'), ...flat(820, 1500)];
    expect(facts(briefly)).toHaveLength(1);
    const off = Array.from({ length: 40 }, (_, i) => look(1000 + 10 * i, 'reaches'));
    expect(facts([...flat(600, 990), ...off, ...flat(1400, 1600)])).toHaveLength(2);
  });

  test('valved off, it is over at once', () => {
    const valvedOff = {
      conclusions: conclusionsWith({
        nowS: 1010,
        stage: { name: 'rise', sinceS: 1005, recognisedBy: 'mark', alternatives: [] },
        forecast: null,
      }),
    };
    const found = dueIn([...flat(600, 1000), valvedOff]);
    expect(found.at(-2)?.over).not.toContain('target');
    expect(found.at(-1)?.over).toContain('target');
  });

  test('a page that is loaded anew in the two minutes still waits for them, and then calls', () => {
    const remembered = dueIn(flat(600, 640)).at(-1)?.given ?? NO_ALERTS_GIVEN;
    const at = (nowS: number, opening: boolean) =>
      dueAlerts(
        {
          ...look(nowS, 'levels_off'),
          sheet: DEFAULT_SHEET,
          marks: [],
          lossAfter: () => null,
          opening,
        },
        remembered,
      );
    expect(at(650, true).due).toEqual([]);
    expect(at(720, false).due).toHaveLength(1);
  });

  test('to a page that opens on it, it is said as it stands', () => {
    expect(facts(flat(600, 600), true)).toHaveLength(1);
    expect(facts(flat(600, 600))).toHaveLength(0);
  });
});

describe('the gas ballast', () => {
  const looks = (fromS: number, toS: number, marks: readonly Mark[]): Look[] =>
    Array.from({ length: (toS - fromS) / 5 + 1 }, (_, i) => ({
      conclusions: conclusionsWith({ nowS: fromS + 5 * i, pressurePa: paFromMicron(2000) }),
      marks,
    }));
  const opened = [mark('ballast_opened', 50)];
  const closed = [...opened, mark('ballast_closed', 700)];

  test('that stands open below 3000 micron is called out once', () => {
    expect(facts(looks(600, 640, opened))).toEqual([]);
    expect(facts(looks(600, 1200, opened))).toEqual([
      { kind: 'ballast_open', atS: 600, sinceS: 100 },
    ]);
  });

  test('of which nobody knows is asked after by the next step, and calls nobody', () => {
    expect(facts(looks(600, 1200, []))).toEqual([]);
  });

  test('closed, the alert goes; opened once more, it is another', () => {
    const closing = dueIn([...looks(600, 690, opened), ...looks(700, 705, closed)]);
    expect(closing.at(-1)?.over).toContain('ballast');
    const reopened = [...closed, mark('ballast_opened', 900)];
    expect(
      facts([...looks(600, 690, opened), ...looks(700, 895, closed), ...looks(900, 960, reopened)]),
    ).toMatchObject([{ atS: 600 }, { atS: 900, sinceS: 900 }]);
  });
});

describe('the pump’s battery', () => {
  const sheet = { ...DEFAULT_SHEET, pumpBatteryS: 1800 };
  const look = (nowS: number, p50S: number | null, marks: readonly Mark[] = []): Look => ({
    conclusions: conclusionsWith({
      nowS,
      forecast: forecastWith({
        remainingToIsolation: p50S === null ? null : { p10S: 1, p50S, p90S: null },
      }),
    }),
    sheet,
    marks,
  });
  const every10S = (fromS: number, toS: number, p50S: number | null, marks: readonly Mark[] = []) =>
    Array.from({ length: (toS - fromS) / 10 + 1 }, (_, i) => look(fromS + 10 * i, p50S, marks));

  test('is said not to last where the depth takes longer, once that has stood', () => {
    // Pump on at 100 s: at 500 s there are 1400 s left.
    expect(facts(every10S(500, 700, 1100))).toEqual([]);
    expect(facts(every10S(500, 700, 1500))).toMatchObject([
      { kind: 'pump_battery', atS: 500, sinceS: 100, needsS: 1500 },
    ]);
  });

  test('is said to be nearly empty whatever the forecast is', () => {
    expect(facts([look(1500, null)])).toEqual([]);
    expect(facts([look(1610, null), look(1620, null)])).toMatchObject([{ leftS: 290 }]);
  });

  test('a changed one begins anew', () => {
    expect(facts(every10S(1610, 1700, 600, [mark('battery_changed', 1600)]))).toEqual([]);
  });

  test('of which nothing is known nothing is said', () => {
    const looks = every10S(500, 3000, 9000).map(({ conclusions }) => ({ conclusions }));
    expect(facts(looks)).toEqual([]);
  });
});
