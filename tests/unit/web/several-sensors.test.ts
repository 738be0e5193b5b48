/** Several sensors on one system: page, report and office are told no pass that one of them does not bear out. */
import { describe, expect, test } from 'vitest';
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import { columnsFromReadings, type Reading } from '../../../protocol/reading.ts';
import type { RecordedSensor, Recording } from '../../../protocol/recording.ts';
import { WHOLE_JOB } from '../../../protocol/job.ts';
import type { SensorPlace } from '../../../protocol/sensor-label.ts';
import { jobOutcomes } from '../../../server/jobs/job-outcome.ts';
import { Outlook } from '../../../server/vans/publish/outlook.ts';
import { reportOf } from '../../../web/report/report-of.ts';
import { ReportReadings } from '../../../web/report/report-readings.ts';
import { writeReport } from '../../../web/report/write-report.ts';
import { FollowedRecording } from '../../../web/store/followed-recording.ts';
import { sayTogether } from '../../../web/words/say-together.ts';
import { sayVerdict } from '../../../web/words/say-verdict.ts';
import { UNBROKEN } from '../../support/any-verified.ts';
import { MICRON } from '../../support/english-speech.ts';
import { normal, seeded } from '../../support/invented-curves.ts';

const HOLD_S = 300;
const END_S = 1290;
const NAMES = ['roof', 'cellar'];
const KINDS: readonly (readonly [MarkKind, number])[] = [
  ['pump_on', 1],
  ['isolated', HOLD_S],
];
const MARKS = KINDS.map(([kind, elapsedS], at): Mark => {
  return { id: at + 1, kind, elapsedS, text: '', madeBy: 'hand' };
});

/** A rise after the same pull-down, Pa/s, up to a moment. */
function curve(channel: number, risePaPerS: number, untilS = END_S): Reading[] {
  const random = seeded(7 + channel);
  return Array.from({ length: untilS }, (_, t) => ({
    index: 2 * t + channel,
    channel,
    boot: 1,
    sequence: t,
    elapsedS: t,
    pressurePa:
      (30 + (t < HOLD_S ? 90_000 * Math.exp(-t / 25) : risePaPerS * (t - HOLD_S))) *
      (1 + 0.001 * normal(random)),
    temperatureC: null,
    condition: 'ok',
  }));
}

const TIGHT = curve(0, 0.003);

function sensor(id: string, name: string, place: SensorPlace): RecordedSensor {
  return {
    id,
    name,
    manufacturer: null,
    model: null,
    serial: null,
    firmware: null,
    label: { name, place, displayStepPa: null, givenAtMs: 0 },
    calibratedOn: null,
  };
}

function recordingOf(places: readonly SensorPlace[]): Recording {
  return {
    id: 1,
    origin: 'sensor',
    startedAtMs: 0,
    title: '',
    sensors: places.map((place, at) => sensor(`s${at}`, NAMES[at] ?? '', place)),
    takenFrom: null,
    open: true,
  };
}

/** The first one is watched. */
function shown(other: readonly Reading[], place: SensorPlace = 'system') {
  const followed = new FollowedRecording(1);
  followed.takeRecording(recordingOf(['system', place]));
  followed.takeFacts(MARKS, []);
  followed.insert(columnsFromReadings([...TIGHT, ...other]));
  followed.judge();
  const rise = followed.conclusions.value?.rise;
  if (rise == null) throw new Error('it is held');
  const together = followed.together.value;
  const said = sayTogether(sayVerdict(rise, MICRON), rise, together, NAMES, MICRON);
  return { rise, together, said };
}

describe('the page', () => {
  test('passes where the only one, or all, bear it out', () => {
    expect(shown([]).rise.verdict).toBe('tight_dry');
    const both = shown(curve(1, 0.003));
    expect(both.rise.verdict).toBe('tight_dry');
    expect(both.together).toMatchObject({ verdict: 'tight_dry', waiting: [], finding: [] });
    expect(both.said.tone).toBe('good');
  });

  test('waits for the other one, and says for which', () => {
    // Silent since before the hold.
    const { rise, together, said } = shown(curve(1, 0, 200));
    expect(rise.verdict).toBe('undecided');
    expect(rise.reservations).toContain('other_sensor');
    expect(together?.waiting).toEqual([1]);
    expect(said.tone).toBe('calm');
    expect(said.sure).toBe('waits for cellar');
  });

  test('tells a leak that the other one sees, and which one', () => {
    const { rise, said } = shown(curve(1, 0.1));
    expect(rise.verdict).toBe('undecided');
    expect(rise.moreS).toBeNull();
    expect(said).toMatchObject({
      tone: 'warning',
      headline: MICRON.wording.verdict.names.leak,
      sure: 'seen by cellar',
    });
  });

  test('does not ask one at the pump', () => {
    const { rise, together } = shown(curve(1, 0.1), 'pump');
    expect(rise.verdict).toBe('tight_dry');
    expect(together).toBeNull();
  });
});

test('the report and the list of jobs pass nothing either', () => {
  const told = (other: readonly Reading[]) => {
    const readings = new ReportReadings(false);
    readings.insert([...TIGHT, ...other]);
    const recording = recordingOf(['system', 'system']);
    const html = writeReport(
      reportOf(
        {
          recording,
          job: WHOLE_JOB,
          marks: MARKS,
          marksTakenBack: [],
          signOff: null,
          entries: [],
          takenBack: [],
          verified: UNBROKEN,
          salvages: [],
          softwareVersion: '1',
          offsetMinutes: 0,
          speech: MICRON,
        },
        readings,
      ),
    );
    const facts = { recording, job: WHOLE_JOB, marks: MARKS, entries: [] };
    return {
      verdicts: [...html.matchAll(/class="verdict verdict-[^"]*"><strong>([^<]*)</gu)].map(
        ([, verdict]) => verdict,
      ),
      html,
      listed: jobOutcomes(facts, readings).map(({ verdict }) => verdict),
    };
  };
  const { names } = MICRON.wording.verdict;
  const leaking = told(curve(1, 0.1));
  expect(leaking.verdicts).toEqual([names.leak, names.leak]);
  expect(leaking.html).toContain('Seen by cellar.');
  expect(leaking.listed).toEqual(['undecided', 'leak']);
  const tight = told(curve(1, 0.003));
  expect(tight.verdicts).toEqual([names.tight_dry, names.tight_dry]);
  expect(tight.listed).toEqual(['tight_dry', 'tight_dry']);
});

describe('what an office is told', () => {
  async function toldOf(other: readonly Reading[], place: SensorPlace = 'system') {
    const readings = [...TIGHT, ...other].sort((a, b) => a.index - b.index);
    const outlook = new Outlook({
      recordingIds: () => [1],
      recording: () => null,
      marks: () => [...MARKS],
      sheet: () => [],
      signOffs: () => [],
      takenBack: () => [],
      deletedStretches: () => [],
      chainLength: () => 0,
      lastIndex: () => 0,
      readingsAfter: (_, after, limit) =>
        columnsFromReadings(readings.filter(({ index }) => index > after).slice(0, limit)),
    });
    const { channels } = await outlook.draw(recordingOf(['system', place]));
    return [...channels].sort((a, b) => a.channel - b.channel).map(({ hold }) => hold?.verdict);
  }

  test('is a pass where all bear it out, and none where another one sees a leak', async () => {
    expect(await toldOf([])).toEqual(['tight_dry']);
    expect(await toldOf(curve(1, 0.003))).toEqual(['tight_dry', 'tight_dry']);
    expect((await toldOf(curve(1, 0.1)))[0]).toBe('undecided');
    expect((await toldOf(curve(1, 0.1), 'pump'))[0]).toBe('tight_dry');
  });
});
