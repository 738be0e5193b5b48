/** Volumes and verdicts go by what the sensor saw in a hold, and not by what the sheet says at the end of the job. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import { type Sheet, type SheetEntry, sheetFromEntries } from '../../../../protocol/sheet.ts';
import { judgedHolds } from '../../../../web/analysis/judged-holds.ts';
import { Judging } from '../../../../web/analysis/judging.ts';
import { numbersOf } from '../../../../web/analysis/numbers.ts';
import { sectionNames } from '../../../../web/analysis/seen/seen-part.ts';
import { sheetThen, sheetWhilePumped } from '../../../../web/analysis/seen/sheet-then.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { describe, expect, test } from 'vitest';

const at = (elapsedS: number, fields: Partial<Sheet>): SheetEntry => ({ elapsedS, fields });
const marked = (kinds: readonly (readonly [MarkKind, number])[]): Mark[] =>
  kinds.map(([kind, elapsedS], index) => {
    return { id: index + 1, kind, elapsedS, text: '', madeBy: 'hand' };
  });
const SYSTEM_M3 = 0.004;
const COIL_M3 = 0.001;
const ENTRIES = [
  at(0, { volumeM3: SYSTEM_M3, sensorSees: 'system' }),
  at(1000, { sensorSees: 'section', seenSection: 'Coil' }),
  at(2000, { sensorSees: 'system' }),
];
const MAP = at(0, { sections: [{ name: 'Coil', volumeM3: COIL_M3, hoseHere: true }] });
const FIRST = { fromS: 300, toS: 900 };
const SECOND = { fromS: 1000, toS: 1900 };
const THIRD = { fromS: 2000, toS: 2900 };

describe('the sheet as it held for a hold', () => {
  const then = (
    entries: readonly SheetEntry[],
    span: { fromS: number; toS: number },
    kinds: readonly (readonly [MarkKind, number])[] = [],
    own: Partial<Sheet> = {},
  ) => {
    const sheet = { ...sheetFromEntries(entries), ...own };
    const { sensorSees, volumeM3 } = sheetThen(sheet, { marks: marked(kinds), entries }, span);
    return { sensorSees, volumeM3 };
  };

  test('has the volume of what was seen then, or none', () => {
    expect(then(ENTRIES, FIRST)).toEqual({ sensorSees: 'system', volumeM3: SYSTEM_M3 });
    expect(then(ENTRIES, SECOND)).toEqual({ sensorSees: 'section', volumeM3: null });
    expect(then([MAP, ...ENTRIES], SECOND).volumeM3).toBe(COIL_M3);
    expect(then(ENTRIES, THIRD)).toEqual({ sensorSees: 'system', volumeM3: SYSTEM_M3 });
  });

  test('does not take a section’s volume that was entered since for the system’s', () => {
    const measured = [...ENTRIES.slice(0, 2), at(1500, { volumeM3: COIL_M3 }), ...ENTRIES.slice(2)];
    expect(sheetFromEntries(measured).volumeM3).toBe(COIL_M3);
    expect(then(measured, THIRD).volumeM3).toBe(SYSTEM_M3);
    expect(then(measured, SECOND).volumeM3).toBe(COIL_M3);
  });

  test('knows inner valves that were shut, and a stub, by their marks alone', () => {
    const shut = [['sections_shut', 300]] as const;
    expect(then(ENTRIES, FIRST, shut)).toEqual({ sensorSees: 'section', volumeM3: null });
    const opened = [...shut, ['sections_opened', 1950]] as const;
    expect(then(ENTRIES, THIRD, opened).volumeM3).toBe(SYSTEM_M3);
    expect(then(ENTRIES, FIRST, [['stub_shut', 250]]).sensorSees).toBe('stub');
  });

  test('takes what was entered while the pump was tried out for the system’s', () => {
    const tried = [
      at(0, { sensorSees: 'pump_side' }),
      at(50, { volumeM3: SYSTEM_M3 }),
      at(100, { sensorSees: 'system' }),
    ];
    expect(then(tried, FIRST).volumeM3).toBe(SYSTEM_M3);
    expect(then(tried, { fromS: 40, toS: 90 })).toEqual({
      sensorSees: 'pump_side',
      volumeM3: null,
    });
  });

  test('leaves a sensor at the place that it was given', () => {
    const atPump = { sensorSees: 'pump_side' } as const;
    expect(then(ENTRIES, FIRST, [], atPump)).toEqual({ ...atPump, volumeM3: null });
    const tried = [at(0, { sensorSees: 'pump_side', volumeM3: SYSTEM_M3 })];
    expect(then(tried, FIRST, [], { sensorSees: 'system' }).volumeM3).toBe(SYSTEM_M3);
  });
});

test('what was pumped has no volume once valves were turned meanwhile, but for the last moment', () => {
  const sheet = sheetFromEntries(ENTRIES);
  const volume = (shutS: number) => {
    const marks = marked([['sections_shut', shutS]]);
    return sheetWhilePumped(sheet, { marks, entries: ENTRIES }, FIRST).volumeM3;
  };
  expect(volume(500)).toBeNull();
  expect(volume(880)).toBe(SYSTEM_M3);
});

test('a section keeps what was said of it when it gets another name', () => {
  const section = { volumeM3: COIL_M3, hoseHere: true };
  const named = [
    at(0, { sections: [{ name: 'Coil', ...section }], volumeM3: SYSTEM_M3 }),
    ...ENTRIES.slice(1),
    at(2100, { sections: [{ name: 'Indoor unit', was: 'Coil', ...section }] }),
  ];
  const facts = { marks: [], entries: named };
  expect(sheetThen(sheetFromEntries(named), facts, SECOND).volumeM3).toBe(COIL_M3);
  expect(sectionNames(named)).toEqual(['Indoor unit']);
  // Whoever calls another one so afterwards means the other one.
  const other = [
    ...named,
    at(2200, {
      sections: [
        { name: 'Indoor unit', ...section },
        { name: 'Coil', volumeM3: 0.002, hoseHere: false },
      ],
    }),
    at(2300, { sensorSees: 'section', seenSection: 'Coil' }),
  ];
  const volumeIn = (fromS: number) =>
    sheetThen(sheetFromEntries(other), { marks: [], entries: other }, { fromS, toS: fromS + 500 })
      .volumeM3;
  expect(volumeIn(1000)).toBe(COIL_M3);
  expect(volumeIn(2300)).toBe(0.002);
});

describe('a hold of a coil before that of the system', () => {
  const random = seeded(11);
  const pressureAt = (t: number) => {
    if (t < 300) return 30 + 90_000 * Math.exp(-t / 25);
    if (t < 1300) return 30 + 0.004 * (t - 300);
    if (t < 1400) return 30 + 4 * Math.exp(-(t - 1300) / 20);
    return 30 + 0.004 * (t - 1400);
  };
  const judging = new Judging();
  judging.insert(
    Array.from({ length: 2400 }, (_, t) => ({
      index: t,
      channel: 0,
      boot: 1,
      sequence: t,
      elapsedS: t,
      pressurePa: pressureAt(t) * (1 + 0.001 * normal(random)),
      condition: 'ok' as const,
      temperatureC: null,
    })),
  );
  const marks = marked([
    ['pump_on', 1],
    ['isolated', 300],
    ['reopened', 1300],
    ['isolated', 1400],
  ]);
  const entries = [
    MAP,
    at(5, { volumeM3: SYSTEM_M3 }),
    at(290, { sensorSees: 'section', seenSection: 'Coil' }),
    at(1390, { sensorSees: 'system' }),
  ];
  const sheet = sheetFromEntries(entries);
  const facts = { marks, entries };
  const holds = judgedHolds(judging.passages(marks, sheet, entries));

  test('passes no system', () => {
    expect(holds.map(({ rise }) => rise.verdict)).toEqual(['undecided', 'tight_dry']);
    expect(holds[0]?.rise.reservations).toEqual(['not_the_system']);
    // As the judge alone has it, by the sheet as it stands, it would.
    expect(judging.conclude(marks, sheet, entries)?.rise?.verdict).toBe('tight_dry');
  });

  test('has its own volume in what the rule lets through, and no leak of the system', () => {
    const numbers = holds.map(({ conclusions }) =>
      numbersOf(judging.history, conclusions, sheet, facts),
    );
    const volumes = numbers.map(({ rise }) => {
      const through = rise?.byRule.letsThrough;
      return (through?.airPaM3PerS ?? Number.NaN) / (through?.leakPaPerS ?? Number.NaN);
    });
    expect(volumes[0]).toBeCloseTo(COIL_M3, 9);
    expect(volumes[1]).toBeCloseTo(SYSTEM_M3, 9);
    expect(numbers[0]?.rise?.byRule.withheldBy).toBe('not_the_system');
    expect(numbers[0]?.rise?.leakRate).toBeNull();
    expect(numbers[1]?.rise?.byRule.withheldBy).toBeNull();
    expect(numbers[1]?.rise?.leakRate?.paM3PerS.estimate).toBeLessThan(1e-4);
  });
});
