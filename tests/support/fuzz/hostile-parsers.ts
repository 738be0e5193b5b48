/**
 * Everything that reads what comes from outside, called with what no honest peer would send: each either takes it or
 * refuses it in its own words. Anything else that it throws is a fault of ours.
 */
import { z } from 'zod';
import { FULL_CSV_HEADER } from '../../../protocol/full-csv.ts';
import { ProblemError } from '../../../protocol/problems.ts';
import {
  CAPABILITIES_FIELDS,
  READING_FIELDS,
  STANDARD_PRESSURE_FIELDS,
  STANDARD_TEMPERATURE_FIELDS,
} from '../../../protocol/profile.ts';
import { decode } from '../../../protocol/profile-codec.ts';
import { CsvError, READINGS_CSV_HEADER, readingsCsvLines } from '../../../protocol/readings-csv.ts';
import { decodeAnswer, decodeRequest } from '../../../protocol/record-access.ts';
import {
  RECORDING_JSON,
  RECORDING_JSON_VERSION,
  recordingJsonHeadSchema,
} from '../../../protocol/recording-json.ts';
import { clientMessageSchema } from '../../../protocol/stream.ts';
import { readFile } from '../../../server/record/record-of-file.ts';
import { Intake } from '../../../server/sources/intake.ts';
import { guessChoice } from '../../../web/read-in/guess.ts';
import { readingBytes } from '../reading-bytes.ts';
import type { SchemaValues } from './from-schema.ts';
import { type Json } from './from-schema.ts';
import { mutatedBytes, mutatedText, mutatedValue } from './mutated.ts';

interface HostileParser {
  readonly name: string;
  /** Of a million inputs in process, so many go to this one. */
  readonly share: number;
  /** @returns whether it was taken @throws whatever is a fault */
  readonly run: (values: SchemaValues) => boolean;
}

const asObject = z.record(z.string(), z.json());
const headJson = z.toJSONSchema(recordingJsonHeadSchema, { io: 'input' });
const messageJson = z.toJSONSchema(clientMessageSchema, { io: 'input' });
/** What chance hardly ever makes: one that contradicts itself nowhere. */
const SOUND_HEAD: Json = {
  format: RECORDING_JSON,
  version: RECORDING_JSON_VERSION,
  softwareVersion: '0',
  recording: {
    id: 4,
    origin: 'sensor',
    startedAtMs: 1_790_000_000_123,
    title: '',
    sensors: [
      {
        id: 'a',
        name: 'A gauge',
        manufacturer: null,
        model: null,
        serial: null,
        firmware: null,
        label: null,
        calibratedOn: null,
      },
    ],
    takenFrom: null,
    open: false,
  },
  job: null,
  marks: [{ id: 7, kind: 'note', elapsedS: 0.1, text: 'said', madeBy: 'hand' }],
  marksTakenBack: [],
  sheet: [{ elapsedS: 0, fields: { site: 'x' } }],
  takenBack: [],
  seenAlerts: [],
  signOffs: [],
  verified: null,
};
const bytesRead = [
  READING_FIELDS,
  CAPABILITIES_FIELDS,
  STANDARD_PRESSURE_FIELDS,
  STANDARD_TEMPERATURE_FIELDS,
];

export function hostileParsers(): HostileParser[] {
  let intake = new Intake(0);
  let taken = 0;
  return [
    {
      name: 'payloads of a sensor, through codec, record access and time axis',
      share: 0.6,
      run: (values) => {
        taken += 1;
        if (taken % 50_000 === 0) intake = new Intake(0);
        const bytes = payload(values, taken);
        for (const fields of bytesRead) decode(fields, bytes);
        decodeAnswer(bytes);
        decodeRequest(bytes);
        const { kind } = intake.take(bytes, taken / 10, values.below(3) === 0);
        return kind !== 'unreadable';
      },
    },
    {
      name: 'messages of the stream',
      share: 0.15,
      run: (values) => {
        const text = textOf(values.value(messageJson), values);
        try {
          clientMessageSchema.parse(JSON.parse(text));
          return true;
        } catch (error) {
          if (error instanceof z.ZodError || error instanceof SyntaxError) return false;
          throw error;
        }
      },
    },
    {
      name: 'files of readings (CSV)',
      share: 0.15,
      run: (values) => {
        const sound = plainCsv(values);
        const text = values.below(4) === 0 ? sound : mutatedText(sound, values);
        guessChoice(text.replaceAll(',', values.below(2) === 0 ? ';' : ','), '°C');
        try {
          return [...readingsCsvLines(text)].length > 0;
        } catch (error) {
          if (error instanceof CsvError) return false;
          throw error;
        }
      },
    },
    {
      name: 'recordings as full CSV',
      share: 0.08,
      run: (values) => {
        const sound = fullCsv(values);
        return wholeFile('csv', values.below(4) === 0 ? sound : mutatedText(sound, values));
      },
    },
    {
      name: 'recordings as JSON',
      share: 0.02,
      run: (values) => wholeFile('json', textOf(wholeJson(values), values)),
    },
  ];
}

/** In its turn as a value and as a text, and now and then as it should be. */
function textOf(value: Json, values: SchemaValues): string {
  const kind = values.below(5);
  if (kind === 0) return JSON.stringify(value);
  if (kind < 3) return JSON.stringify(mutatedValue(value, values));
  return mutatedText(JSON.stringify(value), values);
}

function wholeFile(format: 'json' | 'csv', text: string): boolean {
  try {
    const { count, readings } = readFile(format, text);
    return [...readings()].length === count;
  } catch (error) {
    if (error instanceof ProblemError && error.code === 'bad_readings_file') return false;
    throw error;
  }
}

function payload(values: SchemaValues, step: number): Uint8Array {
  if (values.below(4) === 0)
    return Uint8Array.from({ length: values.below(48) }, () => values.below(256));
  const bytes = readingBytes({ boot: values.below(3), sequence: step, uptimeMs: step * 100 });
  return values.below(3) === 0 ? bytes : mutatedBytes(bytes, values);
}

function plainCsv(values: SchemaValues): string {
  const events = ['', '', 'pump_on', 'note'];
  const rows = Array.from(
    { length: values.below(8) },
    (_, at) => `${at},${values.below(1e5) / 8},${values.of(events)},${values.below(2) ? 20.5 : ''}`,
  );
  return `${READINGS_CSV_HEADER}${rows.join('\n')}\n`;
}

function fullCsv(values: SchemaValues): string {
  const readings = Array.from({ length: values.below(5) }, (_, at) =>
    [
      'reading',
      '2026-03-01T12:00:00.000Z',
      at,
      1,
      'A gauge',
      values.below(1000),
      '',
      20,
      'ok',
      ...['', '', '', '', ''],
      at + 1,
      7,
      at,
      at * 1000,
      at,
      4,
      'sensor',
    ].join(','),
  );
  const mark = 'mark,2026-03-01T12:00:01.000Z,1,,,,,,,,,note,hand,"said, so",3,,,,,4,sensor';
  return `${FULL_CSV_HEADER}${[...readings, mark].join('\r\n')}\r\n`;
}

/** Columns of equal length, so that what comes after the first look is met too. */
function wholeJson(values: SchemaValues): Json {
  const count = values.below(5);
  const column = (of: (at: number) => Json) => Array.from({ length: count }, (_, at) => of(at));
  const head = values.below(2) === 0 ? SOUND_HEAD : values.value(headJson);
  const readings = {
    index: column((at) => at + 1),
    channel: column(() => 0),
    boot: column(() => 1),
    sequence: column((at) => at),
    uptimeMs: column((at) => at * 100),
    arrivedS: column((at) => at / 10),
    elapsedS: column((at) => at / 10),
    pressurePa: column(() => values.below(1e5)),
    temperatureC: column(() => null),
    condition: column(() => 'ok'),
  };
  return { ...asObject.parse(head), readings };
}
