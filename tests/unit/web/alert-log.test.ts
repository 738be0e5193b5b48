/** The book of alerts: one about the same takes the place of another, and what anybody has seen is seen. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isOwn, keyOf, seenBy, seenUntilS } from '../../../web/alerts/alert-identity.ts';
import {
  type AlertLog,
  alertLogSchema,
  announced,
  openOf,
  withOneSeen,
  withOver,
  withSeen,
} from '../../../web/alerts/alert-log.ts';
import { newSeenAlertSchema } from '../../../protocol/seen-alert.ts';
import type { AlertFact } from '../../../web/words/alert-fact.ts';

const TARGET: AlertFact = { kind: 'target', atS: 500, sinceS: 100, targetPa: 66 };
const PASS: AlertFact = { kind: 'verdict', atS: 1300, sinceS: 1000, verdict: 'tight_dry' };
const LEAK: AlertFact = {
  kind: 'verdict_changed',
  atS: 1500,
  sinceS: 1500,
  verdict: 'leak',
  before: 'tight_dry',
};
const EVERY_KIND: readonly AlertFact[] = [
  TARGET,
  PASS,
  LEAK,
  { kind: 'depth', atS: 700, sinceS: 100, isolateAtPa: 33 },
  { kind: 'levels_off', atS: 700, sinceS: 100, targetPa: 66, floorPa: null },
  { kind: 'ballast_open', atS: 300, sinceS: 100 },
  { kind: 'pump_battery', atS: 300, sinceS: 100, leftS: 60, needsS: null },
  { kind: 'vacuum_lost', atS: 2000, sinceS: 1000, fromPa: 30, toPa: null },
  { kind: 'sensor_battery', atS: 300, sinceS: 300, sensor: 'Roof', percent: 12 },
  { kind: 'sensor_lost', atS: 300, sinceS: 300, sensor: 'Roof' },
  { kind: 'sensor_back', atS: 400, sinceS: 400, sensor: 'Roof' },
  { kind: 'device_battery', atS: 300, sinceS: 300, percent: 9 },
  { kind: 'bridge_lost', atS: 300, sinceS: 300 },
  { kind: 'bridge_back', atS: 310, sinceS: 310 },
];

function logOf(facts: readonly AlertFact[], seen: Parameters<typeof announced>[2] = []): AlertLog {
  return facts.reduce<AlertLog>(
    (log, fact) => announced(log, { fact, channel: 0, atMs: 1, early: false }, seen),
    [],
  );
}
const states = (log: AlertLog) => log.map(({ state }) => state);
const seenAt = (alert: string, untilS: number) => ({ alert, untilS, atMs: 77 });

test('every kind is remembered as it was, by a name that the bridge takes', () => {
  const log = logOf(EVERY_KIND);
  expect(alertLogSchema.parse(JSON.parse(JSON.stringify(log)))).toEqual(log);
  for (const fact of EVERY_KIND) {
    const said = { alert: keyOf(fact, 255), untilS: fact.atS };
    expect(newSeenAlertSchema.safeParse(said).success, said.alert).toBe(true);
  }
});

test('a later verdict takes the place of the one before, the target stays', () => {
  expect(states(logOf([TARGET, PASS, LEAK]))).toEqual(['open', 'replaced', 'open']);
});

test('of another sensor it takes nothing’s place', () => {
  const log = announced(logOf([PASS]), { fact: LEAK, channel: 1, atMs: 1, early: false }, []);
  expect(states(log)).toEqual(['open', 'open']);
});

describe('seen on another page', () => {
  test('it is seen here, however each page came to its moment', () => {
    const log = withSeen(logOf([PASS]), [seenAt('0/verdict/tight_dry', 1100)]);
    expect(log[0]).toMatchObject({ state: 'seen', seenMs: 77 });
  });

  test('what became so later is not', () => {
    const before = [seenAt('0/verdict/leak', 1400), seenAt('0/verdict/tight_dry', 1700)];
    expect(states(withSeen(logOf([LEAK]), before))).toEqual(['open']);
  });

  test('pressed however late, it hides nothing of what came after', () => {
    const first: AlertFact = { kind: 'verdict', atS: 900, sinceS: 600, verdict: 'leak' };
    const next: AlertFact = { kind: 'verdict', atS: 3778, sinceS: 3544, verdict: 'leak' };
    // What a page says of the first, whenever that is pressed.
    const seen = [seenAt(keyOf(first, 0), seenUntilS(first))];
    expect(states(logOf([first, next], seen))).toEqual(['seen', 'open']);
    // The same that another page came to a minute later is the same.
    expect(states(logOf([{ ...first, sinceS: 960 }], seen))).toEqual(['seen']);
  });

  test('before it is announced here, it is logged and calls nobody', () => {
    expect(states(logOf([TARGET], [seenAt('0/target', 600)]))).toEqual(['seen']);
  });

  test('a pass that was seen doesn’t hide its withdrawal', () => {
    const withdrawn = { ...LEAK, verdict: 'undecided' } as const;
    expect(seenBy(withdrawn, 0, [seenAt('0/verdict/tight_dry', 9999)])).toBeUndefined();
  });

  test('the battery of that screen is none of this one’s', () => {
    const own: AlertFact = { kind: 'device_battery', atS: 300, sinceS: 300, percent: 9 };
    expect(seenBy(own, 0, [seenAt('0/device_battery', 9999)])).toBeUndefined();
  });
});

test('seen here, and no longer so', () => {
  const log = logOf([TARGET, PASS]);
  expect(states(withOneSeen(log, 1, 5))).toEqual(['seen', 'open']);
  expect(states(withOver(log, 0, ['verdict']))).toEqual(['open', 'over']);
  expect(withOver(log, 1, ['verdict'])).toBe(log);
});

test('whatever is announced and seen in whatever order: one open at most about the same, none twice', () => {
  const step = fc.oneof(
    fc.record({ do: fc.constant('say' as const), at: fc.nat(EVERY_KIND.length - 1) }),
    fc.record({ do: fc.constant('see' as const), at: fc.nat(EVERY_KIND.length - 1) }),
  );
  fc.assert(
    fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
      let log: AlertLog = [];
      for (const { do: what, at } of steps) {
        const fact = EVERY_KIND[at] ?? TARGET;
        if (what === 'say') {
          log = announced(log, { fact, channel: 0, atMs: 1, early: false }, []);
        } else log = withSeen(log, [seenAt(keyOf(fact, 0), 9999)]);
        const open = openOf(log).map((one) => keyOf(one.fact, 0));
        expect(new Set(open).size).toBe(open.length);
        if (what === 'see' && !isOwn(fact)) {
          expect(open).not.toContain(keyOf(fact, 0));
        }
      }
      const numbers = log.map(({ number }) => number);
      expect(numbers).toEqual(numbers.map((_, i) => i + 1));
    }),
  );
});

test('a long day is kept to a bound, the latest of it', () => {
  const log = logOf(Array.from({ length: 500 }, () => PASS));
  expect(log).toHaveLength(200);
  expect(log.at(-1)).toMatchObject({ number: 500, state: 'open' });
});
