/** What a report says, and what it can't be made to say. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Reading } from '../../../protocol/reading.ts';
import { WHOLE_JOB } from '../../../protocol/job.ts';
import type { Recording } from '../../../protocol/recording.ts';
import { DEFAULT_SHEET, type Sheet, type SheetEntry } from '../../../protocol/sheet.ts';
import { ALL_SCENARIOS } from '../../../simulators/scenarios/all-scenarios.ts';
import { play } from '../../../simulators/scenarios/play.ts';
import { judge } from '../../../web/analysis/judge.ts';
import { gridTime } from '../../../web/analysis/readings/judging-grid.ts';
import { numbersOf } from '../../../web/analysis/numbers.ts';
import { reportOf } from '../../../web/report/report-of.ts';
import type { ReportFacts } from '../../../web/report/report-model.ts';
import { ReportReadings } from '../../../web/report/report-readings.ts';
import { writeReport } from '../../../web/report/write-report.ts';
import { english } from '../../../web/words/english.ts';
import { listVerdictNumbers } from '../../../web/words/list-verdict-numbers.ts';
import { historyOf } from '../../support/invented-curves.ts';
import { UNBROKEN } from '../../support/any-verified.ts';
import { recordedReading } from '../../support/recorded-readings.ts';
import { englishIn, MICRON } from '../../support/english-speech.ts';

const JOB: Recording = {
  id: 7,
  origin: 'sensor',
  startedAtMs: Date.UTC(2026, 2, 4, 22, 58, 0),
  title: '',
  sensors: [
    {
      id: 'a1',
      name: 'Roof sensor',
      manufacturer: null,
      model: null,
      serial: '0042',
      firmware: '',
      label: null,
      calibratedOn: null,
    },
  ],
  takenFrom: null,
  open: false,
};

interface Change {
  readonly readings?: readonly Reading[];
  readonly recording?: Partial<Recording>;
  readonly facts?: Partial<ReportFacts>;
  readonly chunk?: number;
}

function report({ readings = [], recording = {}, facts = {}, chunk = 1000 }: Change) {
  const whole = { ...JOB, ...recording };
  const folded = new ReportReadings(whole.origin === 'typed_in');
  for (let at = 0; at < readings.length; at += chunk) folded.insert(readings.slice(at, at + chunk));
  const all = {
    recording: whole,
    marks: [],
    takenBack: [],
    job: WHOLE_JOB,
    marksTakenBack: [],
    signOff: null,
    entries: [],
    verified: UNBROKEN,
    salvages: [],
    softwareVersion: '9.8.7',
    offsetMinutes: 60,
    speech: MICRON,
    ...facts,
  };
  return reportOf(all, folded);
}

const written = (change: Change) => writeReport(report(change));

/** A rehearsed job of each kind, as the record would give it back. */
const PLAYED = ALL_SCENARIOS.map((scenario) => {
  const { rows, marks } = play(scenario, 4);
  return {
    name: scenario.card.name,
    readings: rows.map(({ elapsedS, pressurePa, temperatureC }, at) =>
      recordedReading(at, {
        elapsedS,
        pressurePa,
        temperatureC,
        condition: pressurePa === null ? 'over_range' : 'ok',
      }),
    ),
    marks: marks.map((mark, at) => ({ ...mark, id: at + 1, madeBy: 'rehearsal' as const })),
  };
});
const [first] = PLAYED;
if (first === undefined) throw new Error('there is no scenario');

test('a pass rule of which nobody entered a figure is a setting of ours, and not as entered', () => {
  const { names, unentered } = english.passRules;
  const writtenWith = (...fields: Partial<Sheet>[]) =>
    writeReport(
      report({
        ...first,
        facts: {
          marks: first.marks,
          entries: fields.map((one, at) => ({ elapsedS: at, fields: one })),
        },
      }),
    );
  const cell = (text: string) => new RegExp(`>${text}<`, 'u');
  expect(writtenWith()).toMatch(cell(unentered));
  expect(writtenWith()).not.toMatch(cell(names.own));
  // One entry chooses the rule, another one has its figures.
  const entered = writtenWith({ endLimitPa: 77 }, { passRule: 'own' });
  expect(entered).toMatch(cell(names.own));
  expect(entered).not.toMatch(cell(unentered));
  expect(writtenWith({ passRule: 'canada-300' })).toMatch(cell(names['canada-300']));
});

describe('conclusions', () => {
  test.each(PLAYED)('of $name are the judge’s, to the digit', ({ readings, marks }) => {
    const change = { readings, facts: { marks }, chunk: 777 };
    const endS = gridTime(readings.at(-1)?.elapsedS ?? 0);
    const history = historyOf(readings);
    const conclusions = judge(history, marks, DEFAULT_SHEET, endS);
    const { rise } = conclusions;
    if (rise === null) throw new Error('a scenario ends with its hold');
    expect(report(change).sensors[0]?.holds.at(-1)?.rise).toEqual(rise);
    const html = written(change);
    expect(html).toContain(`<strong>${english.verdict.names[rise.verdict]}`);
    const numbers = numbersOf(history, conclusions, DEFAULT_SHEET, { marks, entries: [] });
    const groups = listVerdictNumbers(rise, numbers, DEFAULT_SHEET, MICRON);
    expect(groups.length).toBeGreaterThan(3);
    for (const { name, value } of groups.flatMap(({ rows }) => rows)) {
      expect(html).toContain(`<th scope="row">${name}</th><td>${value}</td>`);
    }
  });

  test('do not depend on the size of the chunks, nor on a stored part that comes late', () => {
    const { readings, marks } = first;
    const late = readings.filter(({ elapsedS }) => elapsedS > 100 && elapsedS < 160);
    const rest = readings.filter((reading) => !late.includes(reading));
    const once = written({ readings, facts: { marks } });
    expect(written({ readings: [...rest, ...late], facts: { marks }, chunk: 5 })).toBe(once);
  });

  test('an open question is as plain as a verdict', () => {
    const { readings, marks } = first;
    const isolatedS = marks.find(({ kind }) => kind === 'isolated')?.elapsedS ?? 0;
    const short = readings.filter(({ elapsedS }) => elapsedS < isolatedS + 60);
    const html = written({ readings: short, facts: { marks } });
    expect(html).toContain('<strong>Undecided: neither passed nor failed</strong>');
    expect(html).toContain('foreseen from the curve, not measured');
  });

  test('without a hold there is no verdict, and it says so', () => {
    const { readings, marks } = first;
    const isolatedS = marks.find(({ kind }) => kind === 'isolated')?.elapsedS ?? 0;
    const pumped = readings.filter(({ elapsedS }) => elapsedS < isolatedS - 10);
    const html = written({ readings: pumped, facts: { marks } });
    expect(html).toContain('<strong>No verdict: no hold was recorded</strong>');
    for (const verdict of Object.values(english.verdict.names)) expect(html).not.toContain(verdict);
  });

  test('nor without readings', () => {
    expect(written({})).toContain('<strong>No verdict: there are no readings</strong>');
  });

  test('of a system that was opened afterwards are those of its hold', () => {
    const { readings, marks } = first;
    const lastS = readings.at(-1)?.elapsedS ?? 0;
    const opened = Array.from({ length: 120 }, (_, at) =>
      recordedReading(readings.length + at, { elapsedS: lastS + 1 + at, pressurePa: 101_000 }),
    );
    const { sensors } = report({ readings: [...readings, ...opened], facts: { marks } });
    expect(sensors[0]?.conclusions?.stage.name).toBe('vented');
    expect(sensors[0]?.holds).toHaveLength(1);
    expect(sensors[0]?.holds[0]?.rise).toEqual(sensors[0]?.conclusions?.rise);
  });
});

describe('where it comes from', () => {
  const rehearsal = { origin: 'rehearsal', title: 'weir-street-archive' } as const;

  test('a rehearsal says so at the head, in the curve, on each page, and has nothing to sign', () => {
    const { readings, marks } = first;
    const html = written({ readings, recording: rehearsal, facts: { marks } });
    expect(html).toContain('<title>Rehearsal 7</title>');
    expect(html.indexOf('class="banner"')).toBeLessThan(html.indexOf('<h1>'));
    expect(html).toContain(
      `<div class="stamp" aria-hidden="true">${english.report.rehearsalStamp}</div>`,
    );
    expect(html).toMatch(/\.stamp \{ position: fixed;/u);
    expect(html).toContain(`@top-center { content: "${english.report.rehearsalEdge}"`);
    expect(html).toContain('>Rehearsal</text>');
    expect(html).toContain(english.report.noSignOff);
    // Its time may go a hundred times as fast: no reading in it has a time of day.
    expect(html).not.toContain(`>${english.report.columns.clock}</th>`);
    expect(html).not.toContain(english.report.signers[0]);
  });

  test('what a computer played over the radio is a rehearsal too, whatever the sensor is called', () => {
    const [sensor] = JOB.sensors.map((own) => ({ ...own, name: 'Class sensor, simulated' }));
    const label = { name: 'roof', place: 'system', displayStepPa: null, givenAtMs: 0 } as const;
    const sensors = sensor ? [{ ...sensor, label }] : [];
    const html = written({ readings: first.readings, recording: { sensors } });
    expect(html).toContain('<title>Rehearsal 7</title>');
    expect(html).toContain(english.report.rehearsalStamp);
    expect(html).toContain(english.report.noSignOff);
    expect(html).toContain('Class sensor, simulated');
  });

  test('a job has room for names and signatures, and no rehearsal in it', () => {
    const html = written({ readings: first.readings });
    for (const signer of english.report.signers) expect(html).toContain(signer);
    expect(html).not.toMatch(/rehearsal/iu);
    expect(html).not.toContain('class="banner"');
  });

  test('a file says that nobody vouches for it, and gives no time of day to what is in it', () => {
    const html = written({
      readings: first.readings,
      recording: { origin: 'import', title: 'cold-room.csv' },
    });
    expect(html).toContain('cold-room.csv');
    expect(html).toContain('class="banner"');
    expect(html).not.toContain(`>${english.report.columns.clock}</th>`);
  });

  test('typed-in readings minutes apart have no gaps between them', () => {
    const readings = Array.from({ length: 10 }, (_, at) =>
      recordedReading(at, { elapsedS: at * (100 + 37 * at), sequence: at }),
    );
    const html = written({ readings, recording: { origin: 'typed_in' } });
    expect(html).toContain(english.report.noGaps);
    expect(html).toContain('typed in by hand');
  });

  test('what is still growing says that the verdict may change', () => {
    expect(written({ readings: first.readings, recording: { open: true } })).toContain(
      'the verdict may change',
    );
  });
});

describe('facts', () => {
  const mark = {
    id: 1,
    kind: 'note',
    elapsedS: 130,
    text: 'opened the door',
    madeBy: 'hand',
  } as const;

  test('moments are the wall’s as well, in the zone of the site, with the date once it changes', () => {
    const html = written({ readings: first.readings, facts: { marks: [mark] } });
    // 22:58 UTC is 23:58 an hour east; 130 s later it is the next day there.
    expect(html).toContain('2026-03-04 23:58:00 (UTC+01:00)');
    expect(html).toContain(
      '<td>2:10</td><td>2026-03-05 00:00:10</td><td>note: opened the door</td>',
    );
  });

  test('a limit that was changed after the hold shows', () => {
    const entries: SheetEntry[] = [
      { elapsedS: 10, fields: { endLimitPa: 66 } },
      { elapsedS: 5000, fields: { endLimitPa: 400 } },
    ];
    const html = written({
      readings: first.readings,
      facts: { entries, speech: englishIn({ pressure: 'Pa' }) },
    });
    expect(html).toMatch(/<td>0:10<\/td>.*<td>66 Pa<\/td>/u);
    expect(html).toMatch(/<td>1:23:20<\/td>.*<td>400 Pa<\/td>/u);
  });

  test('gaps are listed with their lengths; of very many the longest', () => {
    const holes = first.readings.filter(({ elapsedS }) => elapsedS < 50 || elapsedS > 149);
    expect(written({ readings: holes })).toContain(
      '<td>0:49</td><td>23:58:49</td><td>1 min 41 s</td><td>100 readings missing</td>',
    );
    const sieve = first.readings.filter(({ sequence }) => sequence % 3 !== 0 || sequence === 0);
    const html = written({ readings: sieve });
    expect(html.match(/<td>1 reading missing<\/td>/gu)).toHaveLength(30);
    expect(html).toMatch(/\d+ shorter ones besides/u);
  });

  test('each sensor has its own verdict', () => {
    const both = first.readings.flatMap((reading) => [reading, { ...reading, channel: 1 }]);
    const html = written({ readings: both, facts: { marks: first.marks } });
    expect(html).toContain('Verdict, sensor 1 (Roof sensor)');
    expect(html).toContain('Verdict, sensor 2');
    expect(new Set(html.match(/ id="[^"]*"/gu)).size).toBe(html.match(/ id="[^"]*"/gu)?.length);
  });

  test('a sensor is called as the technician calls it, with its own identity beside it', () => {
    const [own] = JOB.sensors;
    if (own === undefined) throw new Error('there is no sensor');
    const label = { name: 'pump side', place: 'pump', displayStepPa: null, givenAtMs: 0 } as const;
    const both = first.readings.flatMap((reading) => [reading, { ...reading, channel: 1 }]);
    const html = written({
      readings: both,
      recording: {
        sensors: [
          { ...own, label },
          { ...own, id: 'b' },
        ],
      },
      facts: { marks: first.marks },
    });
    expect(html).toContain('Verdict, sensor 1 (pump side)');
    expect(html).toMatch(
      /Called by the technician<\/th><td>pump side<[^]*Its own name<\/th><td>Roof sensor</u,
    );
    // Said long before: nobody confirmed it on this visit.
    expect(html).toMatch(/It sat<\/th><td>at the pump, as was said before, [^<]*1970/u);
    // The same curve: from the pump's side of the valve it is no verdict on the system.
    const verdicts = [...html.matchAll(/class="verdict verdict-[^"]*"><strong>([^<]*)</gu)];
    expect(verdicts[0]?.[1]).toMatch(/^Undecided/u);
    expect(verdicts[1]?.[1]).not.toMatch(/^Undecided/u);
  });

  test('who drew the conclusions, what a hold proves, and who decides', () => {
    const html = written({ readings: first.readings });
    expect(html).toContain('9.8.7');
    expect(html).toContain(english.report.provesNot);
    expect(html).toContain('local codes');
  });
});

describe('whatever people write stays text', () => {
  const withText = (text: string) =>
    written({
      readings: first.readings.slice(0, 300),
      recording: {
        origin: 'import',
        title: text,
        sensors: [
          {
            id: text,
            name: text,
            manufacturer: text,
            model: text,
            serial: text,
            firmware: text,
            label: { name: text, place: 'pump', displayStepPa: 1, givenAtMs: 0 },
            calibratedOn: null,
          },
        ],
      },
      facts: {
        marks: [{ id: 1, kind: 'note', elapsedS: 30, text, madeBy: 'hand' }],
        takenBack: [{ index: 1, elapsedS: 1, pressurePa: 5, insteadPa: null, atMs: 0 }],
        entries: [{ elapsedS: 1, fields: { site: text, equipment: text } }],
        softwareVersion: text,
      },
    });
  const tags = (html: string) => html.match(/<[^>]*>/gu)?.map((tag) => /^<[^\s>]*/u.exec(tag)?.[0]);

  test('a script in the name of a site is one in letters', () => {
    const html = withText('<script>alert(1)</script>');
    expect(html).not.toContain('<script');
    expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
  });

  test('any text gives the tags that a harmless one gives', () => {
    const hostile = fc
      .string({
        unit: fc.constantFrom('<', '>', '"', "'", '&', '/', '-', '!', '=', 'a', ' ', '\0'),
      })
      .filter((text) => text.trim() !== '');
    fc.assert(
      fc.property(hostile, (text) => {
        expect(tags(withText(text))).toEqual(tags(withText('x'.repeat(text.length))));
      }),
      { numRuns: 40 },
    );
  });

  test('nothing in it runs or comes from elsewhere', () => {
    const html = written({ readings: first.readings, facts: { marks: first.marks } });
    expect(html).not.toMatch(/<(?:script|img|link|iframe|object)|\son\w+=|javascript:|@import/u);
    const addresses = html.match(/https?:[^"' )]+/gu) ?? [];
    expect(new Set(addresses)).toEqual(new Set(['http://www.w3.org/2000/svg']));
    expect([...html.matchAll(/url\(([^)]*)\)/gu)].every(([, to]) => to?.startsWith('#'))).toBe(
      true,
    );
  });
});

test('of what was saved from a damaged file it never says that all is as it was', () => {
  const salvages = [
    { readings: { saved: 688, atLeast: 1598 }, otherFacts: { saved: 12, atLeast: 13 } },
  ];
  const html = written({ facts: { salvages } });
  expect(html.indexOf('Saved from a damaged file')).toBeLessThan(html.indexOf('<h1'));
  expect(html).toMatch(/688 of at least 1.?598 readings/u);
  expect(html).not.toContain('Yes: the');
  expect(html).toContain('Not all of it is there');
  const whole = written({});
  expect(whole).toContain('Yes: the');
  expect(whole).not.toContain('Saved from a damaged file');
});

test('an altered record is the first thing said, and no hash stands under it', () => {
  const broken = { what: 'hash_differs', link: 3, where: 'r7-9' } as const;
  const altered = written({ facts: { verified: { ...UNBROKEN, broken } } });
  expect(altered.indexOf('Altered or damaged')).toBeLessThan(altered.indexOf('<h1'));
  expect(altered).toContain('A fact or a link is another one (link 3: r7-9).');
  expect(altered).not.toContain(UNBROKEN.hash.slice(0, 8));
  const whole = written({});
  expect(whole).not.toContain('Altered or damaged');
  expect(whole).toContain('01234567 89abcdef 01234567');
});
