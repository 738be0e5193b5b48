/** What the HTTP API takes and gives: exactly these fields, within these bounds, with these values where one is left out. */
import { describe, expect, test } from 'vitest';
import {
  apiErrorSchema,
  callSchema,
  csvQuerySchema,
  healthSchema,
  importQuerySchema,
  newCallSchema,
  ofJobQuerySchema,
  openApiSchema,
  printQuerySchema,
  recordingDetailSchema,
  recordingListSchema,
  REHEARSAL_ACTIONS,
  REHEARSAL_CAUSES,
  rehearsalListSchema,
  reportQuerySchema,
  resultListSchema,
  revealSchema,
  revealWishSchema,
  sensorLabelListSchema,
  startRehearsalSchema,
  steerRehearsalSchema,
} from '../../../protocol/api.ts';
import {
  archiveWishSchema,
  deleteWishSchema,
  jobCurvesSchema,
  jobListSchema,
  jobQuerySchema,
} from '../../../protocol/job-card.ts';
import {
  newPreparedSheetSchema,
  preparedSheetListSchema,
  usePreparedSheetSchema,
} from '../../../protocol/prepared-sheet.ts';
import { restoredSchema } from '../../../protocol/restored.ts';
import { newSeenAlertSchema } from '../../../protocol/seen-alert.ts';
import {
  calibrationSchema,
  newCalibrationSchema,
  newSensorLabelSchema,
} from '../../../protocol/sensor-label.ts';
import { newSignOffSchema, signOffSchema } from '../../../protocol/sign-off.ts';
import {
  takenBackSchema,
  typedCorrectionSchema,
  typedReadingSchema,
} from '../../../protocol/typed-in.ts';
import { verifiedSchema } from '../../../protocol/verified.ts';
import { expectExactShape, expectWords } from '../../support/exact-shape.ts';

const SIGN_OFF = {
  ...{ beginMark: 2, fromS: 30, name: 'A B', licence: '12', remark: 'tight', quoted: 'passed' },
  ...{ lastS: 90, softwareVersion: '1', atMs: 5 },
};
const VERIFIED = {
  ...{ recordingId: 3, links: 4, facts: 5, addedLater: 2, deleted: 1, hash: 'ab' },
  broken: { what: 'hash_differs', link: 3, where: 'reading 7' },
};
const LABEL = { name: 'Coil', place: 'system', displayStepPa: 0.5 };
const CARD = {
  ...{ recordingId: 3, beginMark: 2, origin: 'sensor', simulated: false, startedAtMs: 5 },
  ...{ fromS: 4, lastS: 9, running: false, title: 't', site: 's', equipment: 'e' },
  ...{ sensors: ['Gauge'], archived: true, signedBy: 'A' },
  outcomes: [{ channel: 1, verdict: 'tight_dry', heldS: 900, lowestPa: 20 }],
};
const CALL = { trainee: 'A', cause: 'leak', surePercent: 80 };
const REVEALED_CALL = {
  ...CALL,
  ...{ elapsedS: 9, recordingId: 3, scenario: 's', seed: 4, truth: 'moisture', toldS: 5 },
  revealedAtMs: 6,
};

describe('answers', () => {
  test.each([
    ['health', healthSchema, { product: 'ebbline', softwareVersion: '1', dataFolder: 'x' }],
    ['an error', apiErrorSchema, { code: 'wrong_code', message: 'a', detail: '' }],
    ['recordings', recordingListSchema, { recordings: [] }],
    [
      'what can be rehearsed',
      rehearsalListSchema,
      { rehearsals: [{ name: 'a', place: 'b', situation: 'c' }] },
    ],
    ['a call', callSchema, { ...CALL, elapsedS: 9 }],
    [
      'a reveal',
      revealSchema,
      {
        ...{ name: 'a', cause: 'leak', truth: 'b', tells: 'c', toldS: 5, leakPaPerS: 0.1 },
        ...{ waterKgAtStart: 0.2, ballastOpenAtStart: true },
      },
    ],
    ['results', resultListSchema, { results: [REVEALED_CALL] }],
    ['jobs', jobListSchema, { jobs: [CARD], found: 7, notJudged: 2 }],
    [
      'curves',
      jobCurvesSchema,
      {
        curves: [
          {
            ...{ channel: 1, pullDownS: 4, isolatedS: 9 },
            pieces: [{ elapsedS: [1, 2], pressurePa: [30, 20] }],
          },
        ],
      },
    ],
    ['labels', sensorLabelListSchema, { labels: [{ sensorId: 'a', ...LABEL, givenAtMs: 5 }] }],
    [
      'a calibration',
      calibrationSchema,
      { sensorId: 'a', calibratedOn: '2026-03-01', givenAtMs: 5 },
    ],
    [
      'what was restored',
      restoredSchema,
      {
        recordings: [
          {
            ...{ outcome: 'added', recordingIdThere: 2, recordingId: 3, origin: 'sensor' },
            ...{ startedAtMs: 5, title: 't', held: true, detail: '' },
          },
        ],
      },
    ],
    ['a chain', verifiedSchema, VERIFIED],
    ['a slip', takenBackSchema, { index: 2, elapsedS: 3, pressurePa: 4, insteadPa: 5, atMs: 6 }],
  ])('%s', (_what, schema, example) => {
    expectExactShape(schema, example);
  });

  test('a recording with all that was said of it', () => {
    const detail = {
      recording: {
        ...{ id: 3, origin: 'sensor', startedAtMs: 5, title: '', sensors: [], takenFrom: null },
        open: false,
      },
      marks: [{ id: 2, kind: 'note', elapsedS: 3, text: 'a', madeBy: 'bridge' }],
      sheet: [{ elapsedS: 3, fields: { site: 'a' } }],
      marksTakenBack: [{ id: 4, kind: 'note', elapsedS: 3, text: 'a', madeBy: 'import' }],
      signOffs: [SIGN_OFF],
      takenBack: [{ index: 2, elapsedS: 3, pressurePa: null, insteadPa: null, atMs: 6 }],
      seenAlerts: [{ alert: '0/verdict/leak', untilS: 4, atMs: 5 }],
      readingCount: 12,
    };
    const words = ['licence', 'remark', 'quoted'].map((one) => `signOffs.*.${one}`);
    expectExactShape(recordingDetailSchema, detail, {
      mayLack: [...words, 'marks.*.text', 'marksTakenBack.*.text', 'sheet.*.fields.site'],
    });
  });

  test('prepared sheets, each as far as it is filled in', () => {
    const sheet = { prepared: 2, fields: { site: 'a' }, usedIn: 3, usedS: 4, atMs: 5 };
    expectExactShape(
      preparedSheetListSchema,
      { sheets: [sheet] },
      { mayLack: ['sheets.*.fields.site'] },
    );
  });

  test('the API’s own document, in OpenAPI 3.1', () => {
    const info = { title: 'a', version: '1' };
    const document = { info, paths: { '/api': { get: {} } }, components: { schemas: { A: {} } } };
    expect(openApiSchema.safeParse({ ...document, openapi: '3.1.1' }).success).toBe(true);
    for (const openapi of ['3.0.3', '3.1', 'x3.1.0', '3.1.0x', '3.1.a', '3x1.0']) {
      expect(openApiSchema.safeParse({ ...document, openapi }).success, openapi).toBe(false);
    }
    for (const part of Object.keys(document)) {
      const broken = { ...document, openapi: '3.1.0', [part]: {} };
      expect(openApiSchema.safeParse(broken).success, part).toBe(part === 'paths');
    }
  });
});

describe('wishes', () => {
  test.each([
    ['a call', newCallSchema, CALL, []],
    ['a reveal', revealWishSchema, { withoutCall: true }, ['withoutCall']],
    [
      'the start of a rehearsal',
      startRehearsalSchema,
      { name: 'a', rate: 20, helper: false, seed: 7 },
      ['rate', 'helper', 'seed'],
    ],
    [
      'a hand on a rehearsal',
      steerRehearsalSchema,
      { rate: 5, paused: true, action: 'isolate', jump: true, stop: true },
      ['rate', 'paused', 'action', 'jump', 'stop'],
    ],
    ['a file', importQuerySchema, { name: 'a.csv', remark: 'b' }, ['name', 'remark']],
    ['putting away', archiveWishSchema, { archived: true }, []],
    ['deleting', deleteWishSchema, { forGood: true }, []],
    ['a label', newSensorLabelSchema, { sensorId: 'a', ...LABEL }, []],
    ['a calibration', newCalibrationSchema, { sensorId: 'a', calibratedOn: '2026-03-01' }, []],
    ['an alert that was seen', newSeenAlertSchema, { alert: '0/verdict/leak', untilS: 4 }, []],
    [
      'a typed reading',
      typedReadingSchema,
      { pressurePa: 40, temperatureC: 20, agoS: 60 },
      ['agoS'],
    ],
    ['a correction', typedCorrectionSchema, { index: 2, pressurePa: 40 }, []],
    [
      'a sign-off',
      newSignOffSchema,
      { beginMark: 2, fromS: 30, name: 'A', licence: 'b', remark: 'c', quoted: 'd' },
      ['licence', 'remark', 'quoted'],
    ],
    ['taking a prepared sheet', usePreparedSheetSchema, { recordingId: 3, elapsedS: 4 }, []],
    [
      'a prepared sheet',
      newPreparedSheetSchema,
      { prepared: 2, fields: { site: 'a' } },
      ['fields.site'],
    ],
  ])('%s', (_what, schema, example, mayLack) => {
    expectExactShape(schema, example, { mayLack });
  });

  test('what is left out has its usual value', () => {
    expect(startRehearsalSchema.parse({ name: 'a' })).toEqual({
      ...{ name: 'a', rate: 1, helper: true, seed: 1 },
    });
    expect(importQuerySchema.parse({})).toEqual({ name: '', remark: '' });
    expect(jobQuerySchema.parse({})).toEqual({ search: '', archived: 'no', limit: 50, skip: 0 });
    expect(csvQuerySchema.parse({})).toEqual({ variant: 'plain' });
    expect(ofJobQuerySchema.parse({})).toEqual({});
    const paper = { unit: 'micron', temperature: '°C', language: 'en' };
    expect(reportQuerySchema.parse({})).toEqual(paper);
    expect(printQuerySchema.parse({})).toEqual({ ...paper, paper: 'A4' });
    expect(typedReadingSchema.parse({ pressurePa: 0, temperatureC: null }).agoS).toBe(0);
    const signed = { beginMark: 0, fromS: 0, name: 'A' };
    expect(newSignOffSchema.parse(signed)).toMatchObject({ licence: '', remark: '', quoted: '' });
  });

  test('numbers in an address are read as such, and nonsense there is refused', () => {
    const asked = { job: '7', channel: '2', variant: 'full' };
    expect(csvQuerySchema.parse(asked)).toEqual({ job: 7, channel: 2, variant: 'full' });
    expect(ofJobQuerySchema.parse({ job: '7' })).toEqual({ job: 7 });
    expect(printQuerySchema.parse({ job: '7', paper: 'Letter', language: 'es' })).toMatchObject({
      ...{ job: 7, paper: 'Letter', language: 'es' },
    });
    const listed = {
      ...{ search: 'a', verdict: 'no_hold', origin: 'import', fromMs: 5, untilMs: 6 },
      ...{ archived: 'all', limit: 2, skip: 3 },
    };
    const inAddress = { ...listed, fromMs: '5', untilMs: '6', limit: '2', skip: '3' };
    expect(jobQuerySchema.parse(inAddress)).toEqual(listed);
    for (const wrong of [{ job: '-1' }, { channel: '-1' }, { channel: '1.5' }, { variant: 'x' }]) {
      expect(csvQuerySchema.safeParse(wrong).success, JSON.stringify(wrong)).toBe(false);
    }
    const refused = [
      ...[{ limit: '0' }, { limit: '501' }, { skip: '-1' }, { archived: 'x' }, { verdict: 'x' }],
      ...[{ fromMs: '1.5' }, { untilMs: 'x' }, { search: 'a'.repeat(201) }],
    ];
    for (const wrong of refused) {
      expect(jobQuerySchema.safeParse(wrong).success, JSON.stringify(wrong)).toBe(false);
    }
    for (const archived of ['no', 'yes', 'all']) {
      expect(jobQuerySchema.parse({ archived }).archived).toBe(archived);
    }
  });
});

describe('words', () => {
  test('what a trainee can do, and call', () => {
    const actions = [
      ...['pump_on', 'pump_off', 'ballast_open', 'ballast_close', 'isolate', 'reopen'],
      ...['take_cores_out', 'change_oil', 'change_battery', 'tighten_joints'],
      ...['break_with_nitrogen', 'shut_sections', 'open_sections', 'shut_stub', 'open_stub'],
    ];
    expect([...REHEARSAL_ACTIONS].sort()).toEqual(actions.sort());
    expectWords(actions, (action) => steerRehearsalSchema.safeParse({ action }));
    const causes = [
      ...['in_order', 'moisture', 'leak', 'leak_and_moisture', 'gear_leak', 'charged_side'],
      ...['refrigerant', 'pump_or_oil', 'ballast_open', 'narrow_way', 'sensor_place'],
      ...['part_shut_off', 'battery', 'radio'],
    ];
    expect([...REHEARSAL_CAUSES].sort()).toEqual(causes.sort());
    expectWords(causes, (cause) => newCallSchema.safeParse({ ...CALL, cause }));
  });

  test('what became of a recording, and where a chain broke', () => {
    const [recording] = [{ outcome: '', recordingIdThere: 2, recordingId: null, origin: 'sensor' }];
    const rest = { startedAtMs: 5, title: '', held: true, detail: '' };
    expectWords(['as_it_was', 'added', 'there_already', 'refused'], (outcome) =>
      restoredSchema.safeParse({ recordings: [{ ...recording, ...rest, outcome }] }),
    );
    const breaks = [
      ...['link_unreadable', 'link_missing', 'goes_on_from_nothing', 'fact_missing'],
      ...['hash_differs', 'fact_outside'],
    ];
    expectWords(breaks, (what) =>
      verifiedSchema.safeParse({ ...VERIFIED, broken: { what, link: null, where: '' } }),
    );
    expectWords(['unknown', 'system', 'pump'], (place) =>
      newSensorLabelSchema.safeParse({ sensorId: 'a', ...LABEL, place }),
    );
  });
});

describe('bounds', () => {
  test.each([
    ['sure by no more than 100 %', newCallSchema, CALL, 'surePercent', [1, 100], [0, 101, 50.5]],
    [
      'a trainee with a name',
      newCallSchema,
      CALL,
      'trainee',
      ['A', 'a'.repeat(60)],
      ['  ', 'a'.repeat(61)],
    ],
    [
      'a pressure that a vacuum gauge can show',
      typedReadingSchema,
      { temperatureC: null },
      'pressurePa',
      [0, 101_325, 200_000],
      [-0.1, 200_001, null],
    ],
    [
      'a temperature of metal',
      typedReadingSchema,
      { pressurePa: 1 },
      'temperatureC',
      [-80, 120, null],
      [-81, 121],
    ],
    [
      'read no longer ago than a visit lasts',
      typedReadingSchema,
      { pressurePa: 1, temperatureC: null },
      'agoS',
      [0, 11 * 3600],
      [-1, 11 * 3600 + 1],
    ],
    [
      'a number of a reading',
      typedCorrectionSchema,
      { pressurePa: null },
      'index',
      [1, 900],
      [0, 1.5],
    ],
    [
      'a correction that is a pressure, or none',
      typedCorrectionSchema,
      { index: 1 },
      'pressurePa',
      [0, 200_000, null],
      [-1, 200_001],
    ],
    [
      'a name in one line of letters that can be seen',
      newSensorLabelSchema,
      { sensorId: 'a', ...LABEL },
      'name',
      ['', 'Coil 3', 'a'.repeat(40)],
      ['a'.repeat(41), 'a\nb', 'a\u202Eb', 'a\u2028b', 'a\uD800b'],
    ],
    [
      'a step of a display',
      newSensorLabelSchema,
      { sensorId: 'a', ...LABEL },
      'displayStepPa',
      [0.1, 10_000, null],
      [0, -1, 10_001],
    ],
    [
      'the sensor that is meant',
      newCalibrationSchema,
      { calibratedOn: '2026-03-01' },
      'sensorId',
      ['a', 'a'.repeat(100)],
      ['', 'a'.repeat(101)],
    ],
    [
      'a day',
      newCalibrationSchema,
      { sensorId: 'a' },
      'calibratedOn',
      ['2024-02-29'],
      ['2026-02-29', '1.3.2026', ''],
    ],
    [
      'an alert by what it says',
      newSeenAlertSchema,
      { untilS: 0 },
      'alert',
      ['0/verdict/leak', 'a', 'a'.repeat(120)],
      ['', '/a', 'A', 'a b', 'a'.repeat(121), 'a\n'],
    ],
    [
      'who signs',
      newSignOffSchema,
      { beginMark: 0, fromS: 0 },
      'name',
      ['A', 'a'.repeat(100)],
      ['', '   ', 'a'.repeat(101)],
    ],
    [
      'a remark',
      newSignOffSchema,
      { beginMark: 0, fromS: 0, name: 'A' },
      'remark',
      ['', 'a'.repeat(1000)],
      ['a'.repeat(1001)],
    ],
    [
      'a licence',
      newSignOffSchema,
      { beginMark: 0, fromS: 0, name: 'A' },
      'licence',
      ['', 'a'.repeat(100)],
      ['a'.repeat(101)],
    ],
    ['data time from 0 on', signOffSchema, SIGN_OFF, 'lastS', [0, 9, null], [-1]],
    [
      'a rate that is offered',
      startRehearsalSchema,
      { name: 'a' },
      'rate',
      [1, 5, 20, 60, 120],
      [2, 0],
    ],
    [
      'a seed of 32 bits',
      startRehearsalSchema,
      { name: 'a' },
      'seed',
      [0, 2 ** 32 - 1],
      [-1, 2 ** 32, 0.5],
    ],
    [
      'a name of a rehearsal',
      startRehearsalSchema,
      {},
      'name',
      ['a', 'a'.repeat(100)],
      ['', 'a'.repeat(101)],
    ],
    ['a file’s name', importQuerySchema, {}, 'name', ['', 'a'.repeat(1000)], ['a'.repeat(1001)]],
    ['a file’s remark', importQuerySchema, {}, 'remark', ['', 'a'.repeat(500)], ['a'.repeat(501)]],
    [
      'a prepared sheet’s number',
      newPreparedSheetSchema,
      { fields: {} },
      'prepared',
      [1, 9, null],
      [0],
    ],
    ['deleting for good alone', deleteWishSchema, {}, 'forGood', [true], [false]],
    ['to reveal or not to ask', revealWishSchema, {}, 'withoutCall', [true], [false]],
  ])('%s', (_what, schema, rest, field, taken, refused) => {
    for (const value of taken) {
      expect(schema.safeParse({ ...rest, [field]: value }).success, String(value)).toBe(true);
    }
    for (const value of refused) {
      expect(schema.safeParse({ ...rest, [field]: value }).success, String(value)).toBe(false);
    }
  });

  test('white space about a name is not part of it', () => {
    expect(newCallSchema.parse({ ...CALL, trainee: ' A ' }).trainee).toBe('A');
    expect(newSensorLabelSchema.parse({ sensorId: 'a', ...LABEL, name: ' A ' }).name).toBe('A');
    const signed = { beginMark: 0, fromS: 0, name: ' A ', remark: ' b ' };
    expect(newSignOffSchema.parse(signed)).toMatchObject({ name: 'A', remark: 'b' });
  });

  test('a name that can’t be shown is told why', () => {
    const { error } = newSensorLabelSchema.safeParse({ sensorId: 'a', ...LABEL, name: 'a\nb' });
    expect(error?.issues[0]?.message).toMatch(/plain text/u);
  });
});
