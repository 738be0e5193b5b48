/** Jobs as stretches of a recording. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  carriedFrom,
  entriesOf,
  FIRST_JOB,
  isWithin,
  jobOf,
  jobsIn,
  sheetOfJob,
  WHOLE_JOB,
} from '../../../protocol/job.ts';
import type { Mark } from '../../../protocol/mark.ts';
import type { Join } from '../../../protocol/rig-facts.ts';
import { type NitrogenGauge, USUAL_NITROGEN_GAUGE } from '../../../protocol/nitrogen-test.ts';
import { DEFAULT_SHEET, type SheetEntry } from '../../../protocol/sheet.ts';

const mark = (id: number, elapsedS: number, kind: Mark['kind'] = 'job_begun'): Mark => ({
  id,
  kind,
  elapsedS,
  text: '',
  madeBy: 'hand',
});

const JOIN: Join = { kind: 'service_valve', between: ['Liquid line', 'Coil'], state: 'open' };

describe('jobs', () => {
  test('without a beginning there is one, as long as the recording', () => {
    expect(jobsIn([mark(1, 5, 'pump_on')])).toEqual([WHOLE_JOB]);
  });

  test('one that is begun late begins where it was said, and ends the one before there', () => {
    expect(jobsIn([mark(9, 4000), mark(4, 7000)])).toEqual([
      { beginMark: FIRST_JOB, fromS: 0, untilS: 4000 },
      { beginMark: 9, fromS: 4000, untilS: 7000 },
      { beginMark: 4, fromS: 7000, untilS: null },
    ]);
    expect(jobOf([mark(9, 4000)], 9)?.untilS).toBeNull();
    expect(jobOf([mark(9, 4000)], 8)).toBeNull();
  });

  test('each moment is of one job', () => {
    const moments = fc.array(fc.integer({ min: 0, max: 50 }), { maxLength: 6 });
    fc.assert(
      fc.property(moments, fc.integer({ min: 0, max: 60 }), (begins, atS) => {
        const jobs = jobsIn(begins.map((elapsedS, at) => mark(at + 1, elapsedS)));
        expect(jobs.filter((job) => isWithin(job, atS))).toHaveLength(1);
      }),
    );
  });
});

describe('the job sheet', () => {
  const entries = [
    { elapsedS: 10, fields: { site: 'Quay', targetPa: 40, hoseCount: 2, volumeM3: 0.01 } },
    { elapsedS: 5000, fields: { site: 'Mill', allowedRisePa: 9 } },
  ];
  const [first = WHOLE_JOB, second = WHOLE_JOB] = jobsIn([mark(3, 4000)]);

  test('of the first job knows nothing of the second', () => {
    const sheet = sheetOfJob(first, entries);
    expect(sheet).toMatchObject({ site: 'Quay', volumeM3: 0.01 });
    expect(sheet.allowedRisePa).toBe(DEFAULT_SHEET.allowedRisePa);
  });

  test('of the second has nothing of the first: neither its system nor its limits', () => {
    const sheet = sheetOfJob(second, entries);
    expect(sheet).toEqual({ ...DEFAULT_SHEET, site: 'Mill', allowedRisePa: 9 });
  });

  test('of a whole recording has every entry as it is', () => {
    expect(entriesOf(WHOLE_JOB, entries)).toEqual(entries);
  });

  test('gives the same equipment its own again, and other equipment the gear and the people alone', () => {
    const visit = [
      {
        elapsedS: 0,
        fields: {
          site: 'Quay',
          serial: 'N-4',
          refrigerant: 'R-32' as const,
          targetPa: 40,
          people: 'Ines',
          hoseCount: 2,
          valveOrder: 'gas, liquid',
          sections: [{ name: 'Liquid line', volumeM3: null, hoseHere: true }],
          joins: [JOIN],
        },
      },
      // What was measured or done that day is of no other day.
      {
        elapsedS: 9,
        fields: {
          metalTemperatureC: 8,
          sensorSees: 'stub' as const,
          systemHistory: 'flooded' as const,
          tickedSteps: [{ step: 'nitrogen_test' as const, state: 'done' as const, atS: 9 }],
        },
      },
    ];
    expect(carriedFrom(visit, 'other')).toEqual({ people: 'Ines', hoseCount: 2 });
    expect(carriedFrom(visit, 'same')).toEqual({
      site: 'Quay',
      serial: 'N-4',
      refrigerant: 'R-32',
      targetPa: 40,
      people: 'Ines',
      hoseCount: 2,
      valveOrder: 'gas, liquid',
      sections: [{ name: 'Liquid line', volumeM3: null, hoseHere: true }],
      // How a valve stood that day is not how it stands now.
      joins: [{ ...JOIN, state: 'unknown' }],
    });
    expect(carriedFrom([], 'same')).toEqual({});
  });

  test.each(['same', 'other'] as const)(
    'gives the nitrogen gauge to the %s equipment without its limit and the air of that day',
    (equipment) => {
      const nitrogenGauge: NitrogenGauge = {
        ...USUAL_NITROGEN_GAUGE,
        accuracyShare: 0.016,
        ambientPa: 84_000,
        makersMost: { kind: 'gauge', gaugePa: 4.15e6 },
      };
      expect(carriedFrom([{ elapsedS: 0, fields: { nitrogenGauge } }], equipment)).toEqual({
        nitrogenGauge: { ...nitrogenGauge, ambientPa: null, makersMost: null },
      });
      // Of a gauge of which nothing else was said there is nothing to carry.
      const limitOnly = { ...USUAL_NITROGEN_GAUGE, makersMost: nitrogenGauge.makersMost };
      const visit = [{ elapsedS: 0, fields: { nitrogenGauge: limitOnly } }];
      expect(carriedFrom(visit, equipment)).toEqual({});
    },
  );

  test.each<[string, SheetEntry['fields'][], number | undefined]>([
    ['before anybody said what the sensor sees', [{ volumeM3: 0.02 }], 0.02],
    ['of the system', [{ sensorSees: 'system' }, { volumeM3: 0.02 }], 0.02],
    ['of the stub alone', [{ sensorSees: 'stub', volumeM3: 0.0002 }], undefined],
    ['of a section alone', [{ sensorSees: 'section' }, { volumeM3: 0.004 }], undefined],
    ['of the pump’s side', [{ sensorSees: 'pump_side', volumeM3: 0.001 }], undefined],
    [
      'of the system, and of a section later',
      [{ volumeM3: 0.02 }, { sensorSees: 'section' }, { volumeM3: 0.004 }],
      0.02,
    ],
    [
      'of a section, and of the system later',
      [{ sensorSees: 'section', volumeM3: 0.004 }, { sensorSees: 'system' }, { volumeM3: 0.03 }],
      0.03,
    ],
    [
      'of a section, and then the system was seen again',
      [{ sensorSees: 'section', volumeM3: 0.004 }, { sensorSees: 'system' }],
      undefined,
    ],
  ])('gives the same equipment the volume of its system: entered %s', (_what, visit, volumeM3) => {
    const entries = visit.map((fields, at) => ({ elapsedS: at, fields }));
    expect(carriedFrom(entries, 'same').volumeM3).toBe(volumeM3);
  });
});
