/** Which job of its recording a page shows, where another one is laid behind it, and where one may have begun. */
import { describe, expect, test } from 'vitest';
import { FIRST_JOB } from '../../../protocol/job.ts';
import type { Mark } from '../../../protocol/mark.ts';
import { columnsFromReadings, type Reading } from '../../../protocol/reading.ts';
import { jobBeginnings } from '../../../web/history/job-begins.ts';
import { placedBehind } from '../../../web/history/place-behind.ts';
import { FollowedRecording } from '../../../web/store/followed-recording.ts';

function reading(elapsedS: number, index = elapsedS + 1): Reading {
  return {
    index,
    channel: 0,
    boot: 1,
    sequence: elapsedS,
    elapsedS,
    pressurePa: 1000 - elapsedS,
    temperatureC: null,
    condition: 'ok',
  };
}

const begin = (id: number, elapsedS: number): Mark => ({
  id,
  kind: 'job_begun',
  elapsedS,
  text: '',
  madeBy: 'hand',
});

function followed(): FollowedRecording {
  const recording = new FollowedRecording(1);
  recording.insert(columnsFromReadings(Array.from({ length: 100 }, (_, at) => reading(at))));
  return recording;
}

const firstAndLast = ({ readings }: FollowedRecording) => [
  readings.elapsedS(0),
  readings.elapsedS(readings.length - 1),
  readings.length,
];

describe('a page', () => {
  test('goes on to a job that is begun late, with the readings since then', () => {
    const recording = followed();
    recording.takeMark(begin(7, 60));
    expect(firstAndLast(recording)).toEqual([60, 99, 40]);
    recording.insert(columnsFromReadings([reading(100)]));
    expect(firstAndLast(recording)).toEqual([60, 100, 41]);
    // One from the sensor's store that belongs to the job before.
    recording.insert(columnsFromReadings([reading(30, 500)]));
    expect(firstAndLast(recording)).toEqual([60, 100, 41]);
    recording.judge();
    expect(recording.conclusions.value?.nowS).toBe(100);
  });

  test('concludes nothing from the first part of a long recording, and draws it now and then', () => {
    const recording = new FollowedRecording(1);
    const part = (from: number, to: number) =>
      columnsFromReadings(Array.from({ length: to - from }, (_, at) => reading(from + at)));
    recording.insert(part(0, 50), false);
    recording.judge();
    expect(recording.conclusions.value).toBeNull();
    expect(recording.revision.value).toBe(0);
    recording.insert(part(50, 100), true);
    recording.judge();
    // The latest moment of the grid.
    expect(recording.conclusions.value?.nowS).toBe(98);
    expect(recording.revision.value).toBe(1);
  });

  test('tells that the vacuum was lost after the sensor was marked as shut off', () => {
    const recording = new FollowedRecording(1);
    const at = (elapsedS: number): Reading => ({
      ...reading(elapsedS),
      pressurePa: elapsedS < 1700 ? 20 + 2000 * Math.exp(-elapsedS / 60) : 3000,
    });
    recording.insert(columnsFromReadings(Array.from({ length: 1650 }, (_, s) => at(s))));
    const work = (id: number, kind: Mark['kind'], elapsedS: number): Mark => ({
      ...begin(id, elapsedS),
      kind,
    });
    recording.takeMark(work(1, 'pump_on', 10));
    recording.takeMark(work(2, 'isolated', 600));
    recording.takeMark(work(3, 'sensor_isolated', 1600));
    recording.judge();
    expect(recording.conclusions.value?.rise?.verdict).toBe('tight_dry');
    expect(recording.vacuumLoss(600, 1500)).toBeNull();
    // The loss itself comes before anything is judged anew.
    recording.insert(columnsFromReadings(Array.from({ length: 100 }, (_, s) => at(1650 + s))));
    expect(recording.vacuumLoss(600, 1500)?.atS).toBe(1700);
  });

  test('has all of it again once that was a slip', () => {
    const recording = followed();
    recording.takeMark(begin(7, 60));
    recording.takeMarkBack(7);
    expect(firstAndLast(recording)).toEqual([0, 99, 100]);
    expect(recording.job.value.beginMark).toBe(FIRST_JOB);
  });

  test('stays at the job that was chosen, and says that it is over', () => {
    const recording = followed();
    recording.chooseJob(FIRST_JOB);
    expect(recording.isEarlierJob.value).toBe(false);
    recording.takeFacts([begin(7, 60)], [{ elapsedS: 70, fields: { site: 'Mill' } }]);
    expect(firstAndLast(recording)).toEqual([0, 59, 60]);
    expect(recording.isEarlierJob.value).toBe(true);
    expect(recording.sheet.value.site).toBe('');
    recording.insert(columnsFromReadings([reading(100)]));
    expect(firstAndLast(recording)).toEqual([0, 59, 60]);
    recording.chooseJob(null);
    expect(firstAndLast(recording)).toEqual([60, 100, 41]);
    expect(recording.sheet.value.site).toBe('Mill');
  });

  test('who begins another job in the one that was chosen goes on to it', () => {
    const recording = followed();
    recording.chooseJob(FIRST_JOB);
    recording.goOnTo(7);
    recording.takeMark(begin(7, 60));
    recording.takeMark(begin(8, 90));
    expect(recording.job.value).toMatchObject({ beginMark: 7, untilS: 90 });
  });
});

describe('another job behind it', () => {
  const pieces = [{ elapsedS: [100, 110], pressurePa: [9, 8] }];
  const curve = { channel: 0, pullDownS: 100, isolatedS: null, pieces };

  test('lies with the same moment at the same place', () => {
    const own = { pullDownS: 40, isolatedS: 90 };
    expect(placedBehind(curve, own, 'pump_on')).toEqual([
      { elapsedS: [40, 50], pressurePa: [9, 8] },
    ]);
  });

  test('has no place where one of the two lacks the moment', () => {
    expect(placedBehind(curve, { pullDownS: 40, isolatedS: 90 }, 'valve_off')).toBeNull();
    expect(placedBehind(curve, { pullDownS: null, isolatedS: 90 }, 'pump_on')).toBeNull();
  });
});

describe('where another job may have begun', () => {
  const at = (...times: number[]) => {
    const recording = new FollowedRecording(1);
    recording.insert(columnsFromReadings(times.map((atS, row) => reading(atS, row + 1))));
    return recording;
  };

  test('at the pump, after the drive, and now', () => {
    const { readings, job } = at(0, 10, 1200, 1300, 1400);
    expect(jobBeginnings(job.value, readings, 1310)).toEqual({
      pump_on: 1310,
      silence: 1200,
      now: 1400,
    });
  });

  test('what this job itself began with is none', () => {
    const { readings, job } = at(0, 10, 20);
    expect(jobBeginnings(job.value, readings, 30)).toEqual({ now: 20 });
    expect(jobBeginnings(job.value, at().readings, null)).toEqual({});
  });
});
