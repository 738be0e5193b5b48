/** A report in another language: nothing of it is left in English, and two at once keep to their own. */
import { expect, test } from 'vitest';
import { REFRIGERANTS, SAFETY_CLASS_SOURCE } from '../../../protocol/refrigerants.ts';
import { gaugeFromUnit } from '../../../protocol/gauge-pressure.ts';
import { PASS_RULES } from '../../../protocol/pass-rules.ts';
import type { Reading } from '../../../protocol/reading.ts';
import { WHOLE_JOB } from '../../../protocol/job.ts';
import type { RecordedSensor, Recording } from '../../../protocol/recording.ts';
import { NO_TRIPLE_PLAN, triplePlanOf } from '../../../protocol/triple-plan.ts';
import { CHAIN_BREAKS } from '../../../protocol/verified.ts';
import { play } from '../../../simulators/scenarios/play.ts';
import { documentOf } from '../../../web/report/document-of.ts';
import type { ReportDocument } from '../../../web/report/report-document.ts';
import type { ReportFacts } from '../../../web/report/report-model.ts';
import { reportOf } from '../../../web/report/report-of.ts';
import { ReportReadings } from '../../../web/report/report-readings.ts';
import { writeReport } from '../../../web/report/write-report.ts';
import { english } from '../../../web/words/english.ts';
import { spanish } from '../../../web/words/spanish.ts';
import { speechIn } from '../../../web/words/speech.ts';
import { speechOf } from '../../../web/words/speech-of.ts';
import { spanish as brackets } from '../../support/bracketed.ts';
import { MICRON } from '../../support/english-speech.ts';
import { scenarioNamed } from '../../support/played-scenario.ts';
import { UNBROKEN } from '../../support/any-verified.ts';
import { recordedReading } from '../../support/recorded-readings.ts';
import { unspoken } from '../../support/unspoken.ts';

const { units } = MICRON;
const FILE = 'readings.csv';
const VERSION = '9.8.7';
const IN_BRACKETS = speechIn('es', brackets, units);

const sensor: RecordedSensor = {
  id: 'A-1',
  name: 'Roof gauge',
  manufacturer: 'Maker',
  model: null,
  serial: '0042',
  firmware: '',
  label: { name: 'cellar', place: 'system', displayStepPa: 0.1, givenAtMs: 0 },
  calibratedOn: null,
};
const { rows, marks } = play(scenarioNamed('weir-street-archive'), 4);
const wet = rows.map(({ elapsedS, pressurePa, temperatureC }, at) =>
  recordedReading(at, {
    elapsedS,
    pressurePa,
    temperatureC,
    condition: pressurePa === null ? 'over_range' : 'ok',
  }),
);
const holed = wet.filter(({ elapsedS }) => elapsedS < 300 || elapsedS > 340);
const facts = {
  marks: marks.map((mark, at) => ({ ...mark, id: at + 1, madeBy: 'hand' as const })),
  entries: [
    { elapsedS: 4, fields: { sensorSees: 'section' as const, seenSection: 'cellar' } },
    {
      elapsedS: 5,
      fields: {
        site: 'Harbour Street',
        volumeM3: 0.004,
        metalTemperatureC: 21,
        coldestTemperatureC: 18,
        passRule: 'au-nz-triple' as const,
        sensorSees: 'system' as const,
        refrigerant: 'R-32' as const,
        hoseBoreM: 0.0095,
        core: 'out' as const,
        nitrogenReadings: [0, 3_600_000, 86_400_000].map((atMs) => ({
          atMs,
          pressure: gaugeFromUnit(500, 'psi'),
          temperatureC: atMs === 0 ? 20 : 21.5,
          step: atMs > 3_600_000 ? 2 : 1,
          justFilled: false,
          note: '',
        })),
        triplePlan: triplePlanOf('au-nz-triple') ?? NO_TRIPLE_PLAN,
        stubVolumeM3: 1e-5,
        oil: 'poe' as const,
        systemHistory: 'opened' as const,
        altitudeM: 1500,
        tickedSteps: [
          { step: 'nitrogen_test' as const, state: 'done' as const, atS: 4 },
          { step: 'tool_closed' as const, state: 'not_needed' as const, atS: 1700 },
        ],
      },
    },
  ],
  takenBack: [
    { index: 3, elapsedS: 9, pressurePa: 50, temperatureC: null, insteadPa: null, atMs: 9 },
  ],
};

interface Case {
  readonly readings: readonly Reading[];
  readonly recording?: Partial<Recording>;
  readonly facts?: Partial<ReportFacts>;
}

const CASES: Readonly<Record<string, Case>> = {
  'of a job with all that there may be': { readings: holed, facts },
  'of two sensors': {
    readings: [...wet, ...wet.map((one) => ({ ...one, channel: 1 }))],
    recording: { sensors: [sensor, { ...sensor, id: 'B-2', label: null, calibratedOn: null }] },
    facts: { marks: facts.marks },
  },
  'of a rehearsal': {
    readings: wet,
    recording: { origin: 'rehearsal', title: 'weir-street-archive' },
    facts: { marks: facts.marks },
  },
  'of a file that was not held': {
    readings: wet.slice(0, 90),
    recording: { origin: 'import', title: 'cellar.csv', sensors: [], open: true },
  },
  'of typed numbers': { readings: wet.slice(0, 40), recording: { origin: 'typed_in' } },
  'without readings': { readings: [] },
  'of a record that is older than its chain': {
    readings: [],
    facts: { verified: { ...UNBROKEN, addedLater: 12 } },
  },
  'of what was saved from a damaged file': {
    readings: [],
    facts: {
      salvages: [{ readings: { saved: 3, atLeast: 5 }, otherFacts: { saved: 1, atLeast: 1 } }],
    },
  },
  ...Object.fromEntries(
    CHAIN_BREAKS.map((what) => [
      `of an altered record: ${what}`,
      { readings: [], facts: { verified: { ...UNBROKEN, broken: { what, link: 3, where: '' } } } },
    ]),
  ),
};

function reported({ readings, recording = {}, facts: more = {} }: Case, speech = IN_BRACKETS) {
  const whole: Recording = {
    id: 7,
    origin: 'sensor',
    startedAtMs: Date.UTC(2026, 2, 4, 8, 30, 0),
    title: '',
    sensors: [sensor],
    takenFrom: null,
    open: false,
    ...recording,
  };
  const folded = new ReportReadings(whole.origin === 'typed_in');
  folded.insert(readings);
  const none = { marks: [], marksTakenBack: [], entries: [], takenBack: [], verified: UNBROKEN };
  const unsigned = { job: WHOLE_JOB, signOff: null, salvages: [] };
  const all = {
    recording: whole,
    ...none,
    ...unsigned,
    softwareVersion: VERSION,
    offsetMinutes: 60,
    speech,
  };
  return reportOf({ ...all, ...more }, folded);
}

const written = (given: Case, speech = IN_BRACKETS) => writeReport(reported(given, speech));

/** What the web page does not say: at the edges of paper, and of the files that go with it. */
function onPaper({ running, sections }: ReportDocument): string[] {
  const { recording, software, hash, page } = running;
  const paragraphs = sections.flatMap(({ blocks }) =>
    blocks.flatMap((block) => (block.kind === 'paragraph' ? [block.text] : [])),
  );
  expect(paragraphs.some((text) => text.includes(FILE))).toBe(true);
  return [recording, software.replace(VERSION, ''), hash, page(1, 2), ...paragraphs];
}

/** Names that people and sensors have, and documents. */
const DATA = [
  UNBROKEN.hash.replaceAll(/(.{8})(?=.)/gu, '$1 '),
  ...Object.values(PASS_RULES).flatMap(({ source }) =>
    source === null ? [] : [source.document, source.clause ?? ''],
  ),
  SAFETY_CLASS_SOURCE,
  ...REFRIGERANTS.map(({ safetyClass }) => safetyClass),
  ...[
    'Harbour Street',
    'weir street archive',
    'cellar.csv',
    'Roof gauge',
    'cellar',
    'Maker',
    'A-1',
    'B-2',
    FILE,
    ...(UNBROKEN.hash.match(/.{8}/gu) ?? []),
  ],
]
  .filter((text) => text !== '')
  .sort((a, b) => b.length - a.length);

function textsOf(html: string): string[] {
  const inStyle = [...html.matchAll(/content: "([^"]*)"/gu)].map(([, text = '']) => text);
  const inBody = html.replace(/<style>[^]*?<\/style>/u, '').split(/<[^>]*>/u);
  const plain = (text: string) =>
    text
      .replaceAll('&lt;', '<')
      .replaceAll('&gt;', '>')
      .replaceAll('&quot;', '"')
      .replaceAll('&#39;', "'")
      .replaceAll('&amp;', '&');
  return [...inStyle, ...inBody].map(plain);
}

test.each(Object.entries(CASES))('%s it says all in the language asked for', (_, given) => {
  const report = reported(given);
  const texts = [...textsOf(writeReport(report)), ...onPaper(documentOf(report, [FILE]))];
  expect(texts.filter((text) => text.includes('⟦')).length).toBeGreaterThan(30);
  expect(texts.flatMap((text) => unspoken(text, DATA))).toEqual([]);
});

test('steps, closing up and what follows from the new fields stand in it', () => {
  const { sections } = documentOf(reported({ readings: holed, facts }, speechOf('en', units)));
  const rowsOf = (heading: string) =>
    sections
      .filter((section) => section.heading === heading)
      .flatMap(({ blocks }) =>
        blocks.flatMap((block) => (block.kind === 'list' ? block.rows : [])),
      );
  const steps = new Map(rowsOf('Steps').map(([name, ...rest]) => [name, rest]));
  expect(steps.get('Nitrogen test')).toEqual(['done, by hand', '0:04', '09:30:04']);
  expect(steps.get('Hook up')?.[0]).toBe('done, from the job sheet');
  expect(steps.get('Verdict')?.[0]).toBe('done, from the curve');
  // Where closing up is to come it is no part of what was done.
  expect(steps.has('Power on')).toBe(false);
  expect(rowsOf('Closing up')).toEqual([
    ['Core tool closed', 'not needed, by hand', '28:20', '09:58:20'],
  ]);
  const text = JSON.stringify(sections);
  expect(text).toContain('R-32: Safety class A2L');
  expect(text).toContain('84.6 kPa');
  expect(text).toContain('Common practice, no source.');
});

test('it names its language, and two that are written at once keep to theirs', () => {
  const given = { readings: holed, facts };
  const inSpanish = written(given, speechOf('es', units));
  const inEnglish = written(given, speechOf('en', units));
  expect(written(given, speechOf('es', units))).toBe(inSpanish);
  expect(inSpanish).toContain('<html lang="es">');
  expect(inEnglish).toContain('<html lang="en">');
  expect(inSpanish).toContain(`<strong>${spanish.verdict.names.leak_and_moisture}</strong>`);
  expect(inEnglish).toContain(`<strong>${english.verdict.names.leak_and_moisture}</strong>`);
  expect(inSpanish).toMatch(/micrones por minuto/u);
  for (const { title } of [english.nitrogen, english.cycles, english.hunt]) {
    expect(inEnglish).toContain(`>${title}</h2>`);
  }
  expect(inEnglish).toContain('34.47 bar (gauge)');
  // Decimal commas: a point stands between digits in versions and paragraphs alone.
  const numbers =
    textsOf(inSpanish)
      .join('\n')
      .match(/\d\.\d+(?:\.\d+)*/gu) ?? [];
  expect(numbers.filter((one) => !['9.8.7', '5.4.2'].includes(one))).toEqual([]);
});
