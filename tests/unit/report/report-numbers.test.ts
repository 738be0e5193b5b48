/** The numbers in a report: the rule after the physics, the leak in its units, the holds as a list. */
import { describe, expect, test } from 'vitest';
import { WHOLE_JOB } from '../../../protocol/job.ts';
import type { Mark } from '../../../protocol/mark.ts';
import type { Reading } from '../../../protocol/reading.ts';
import type { Recording } from '../../../protocol/recording.ts';
import type { SheetEntry } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { reportOf } from '../../../web/report/report-of.ts';
import { ReportReadings } from '../../../web/report/report-readings.ts';
import { writeReport } from '../../../web/report/write-report.ts';
import { english } from '../../../web/words/english.ts';
import { played } from '../../support/played-scenario.ts';
import { UNBROKEN } from '../../support/any-verified.ts';
import { recordedReading } from '../../support/recorded-readings.ts';
import { MICRON } from '../../support/english-speech.ts';

function written(readings: readonly Reading[], marks: readonly Mark[], entries: SheetEntry[] = []) {
  const folded = new ReportReadings(false);
  folded.insert(readings);
  const recording: Recording = {
    id: 7,
    origin: 'sensor',
    startedAtMs: 0,
    title: '',
    takenFrom: null,
    sensors: [],
    open: false,
  };
  const facts = {
    recording,
    marks,
    entries,
    takenBack: [],
    job: WHOLE_JOB,
    marksTakenBack: [],
    signOff: null,
    verified: UNBROKEN,
    salvages: [],
    softwareVersion: '1',
    offsetMinutes: 0,
    speech: MICRON,
  };
  return writeReport(reportOf(facts, folded));
}

/** Pumped to 30 Pa, held, pumped again and held again. */
function twoHolds() {
  const pressureAt = (t: number) => {
    if (t <= 600) return 30 + 90_000 * Math.exp(-t / 40);
    if (t <= 1000) return 30 + 0.05 * (t - 600);
    return t <= 1400 ? 30 + 20 * Math.exp(-(t - 1000) / 40) : 30 + 0.05 * (t - 1400);
  };
  const readings = Array.from({ length: 2000 }, (_, at) =>
    recordedReading(at, { elapsedS: at, pressurePa: pressureAt(at) }),
  );
  const marked = [
    ['pump_on', 1],
    ['isolated', 600],
    ['reopened', 1000],
    ['isolated', 1400],
  ] as const;
  const marks = marked.map(([kind, elapsedS], at) => {
    return { kind, elapsedS, id: at + 1, text: '', madeBy: 'hand' as const };
  });
  return { readings, marks };
}

describe('numbers in a report', () => {
  test('say the rule after the physics, with its source and the leak it lets through', () => {
    const leak = played('weir-street-archive');
    const readings = leak.rows.map(({ elapsedS, pressurePa }, at) =>
      recordedReading(at, {
        elapsedS,
        pressurePa,
        condition: pressurePa === null ? 'over_range' : 'ok',
      }),
    );
    const marks = leak.marks.map((mark, at) => ({ ...mark, id: at + 1, madeBy: 'hand' as const }));
    // A rule that this leak keeps: 800 micron at the end, risen by 600.
    const fields = {
      endLimitPa: paFromMicron(800),
      allowedRisePa: paFromMicron(600),
      volumeM3: 0.012,
      gaugeErrorShare: 0,
    };
    const entries: SheetEntry[] = [{ elapsedS: 0, fields }];
    const html = written(readings, marks, entries);
    const physics = html.indexOf(`<strong>${english.verdict.names.leak_and_moisture}`);
    const rule = html.indexOf('<b>Pass rule: ');
    expect(physics).toBeGreaterThan(0);
    expect(rule).toBeGreaterThan(physics);
    expect(html).toContain('Source: As entered on the job sheet.');
    // 600 micron in 15 minutes; from the start on, 800 micron allow less.
    expect(html).toMatch(
      /This rule passes a steady inflow of up to [34]\d(\.\d)? micron a minute/u,
    );
    for (const unit of ['Pa·m³/s', 'mbar·L/s', 'micron·L/s', 'standard cm³/min']) {
      expect(html).toContain(`<th scope="row">In ${unit}</th>`);
    }
  });

  test('list several holds: when, pumped before, from where to where', () => {
    const { readings, marks } = twoHolds();
    const html = written(readings, marks);
    const rose = [...html.matchAll(/<td>(from \d[^<]*)<\/td>/gu)].map(([, text]) => text);
    // 30 Pa are 225 micron; 0.05 Pa/s over 400 s are 150, less what is not looked at at its end.
    expect(rose).toHaveLength(2);
    expect(rose[0]).toMatch(/^from 225 micron to 3[67]\d micron in 6 min \d+ s$/u);
    // Pumped from 1 s to 600 s, and from 1000 s to 1400 s.
    const pumped = html.matchAll(/<td>(\d+ min[^<]*)<\/td><td>from/gu);
    expect([...pumped].map(([, text]) => text)).toEqual(['9 min 59 s', '6 min 40 s']);
    expect(html).toContain(english.numbers.holds.note);
  });
});
