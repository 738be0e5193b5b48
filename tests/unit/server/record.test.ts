import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Call } from '../../../protocol/api.ts';
import type { ReceivedReading } from '../../../protocol/reading.ts';
import { ORIGINS } from '../../../protocol/recording.ts';
import type { RecordMessage } from '../../../protocol/stream.ts';
import { RECORD_FILE } from '../../../server/record/open-database.ts';
import { Recorder } from '../../../server/record/recorder.ts';
import { MIGRATIONS } from '../../../server/record/schema.ts';

let folder = '';
let said: RecordMessage[] = [];
const listener = { durable: (message: RecordMessage) => void said.push(message), held: () => {} };

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'record-'));
  said = [];
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

function reading(sequence: number, change: Partial<ReceivedReading> = {}): ReceivedReading {
  return {
    channel: 0,
    boot: 1,
    sequence,
    uptimeMs: sequence * 1000,
    arrivedS: sequence + 0.1,
    elapsedS: sequence,
    pressurePa: 100 / 3 + sequence,
    temperatureC: 20.25,
    condition: 'ok',
    ...change,
  };
}

describe('the record', () => {
  test('a name or place given after the end of a recording changes nothing in it', async () => {
    const recorder = await Recorder.open(folder, listener);
    const identity = { manufacturer: null, model: null, serial: null, firmware: null };
    const begun = (origin: 'sensor' | 'import') => {
      const id = recorder.begin(origin, 1000, '');
      recorder.sensor(id, 0, { id: 'a', name: 'Own', ...identity });
      return id;
    };
    const give = (place: 'system' | 'pump', givenAtMs: number) =>
      recorder.label({ sensorId: 'a', name: place, place, displayStepPa: null, givenAtMs });
    const [ended, file] = [begun('sensor'), begun('import')];
    await give('pump', 1500);
    recorder.end(ended, 2000);
    await give('system', 2500);
    const open = begun('sensor');
    await recorder.settled();
    const placeIn = (id: number) => recorder.reader.recording(id)?.sensors[0]?.label?.place;
    expect([placeIn(ended), placeIn(open), placeIn(file)]).toEqual(['pump', 'system', undefined]);
    expect(recorder.reader.recording(open)?.sensors[0]?.name).toBe('Own');
    await recorder.close();
  });

  test('is whole in its one file once it is closed, without a log beside it', async () => {
    const recorder = await Recorder.open(folder, listener);
    const id = recorder.begin('sensor', 1234, '');
    recorder.readings(id, [reading(0), reading(1)]);
    // Looked at, as the bridge does: whoever reads keeps the log from being emptied.
    await recorder.settled();
    expect(recorder.reader.lastIndex(id)).toBe(2);
    recorder.readings(id, [reading(2)]);
    await recorder.close();
    const logs = () => readdirSync(folder).filter((name) => /-(?:wal|shm)$/u.test(name));
    expect(logs()).toEqual([]);
    const database = new Database(join(folder, RECORD_FILE), { readonly: true });
    expect(database.prepare('SELECT COUNT(*) FROM reading').pluck().get()).toBe(3);
    database.close();
  });

  test('gives back every fact as it was handed over, also after a restart', async () => {
    const first = await Recorder.open(folder, listener);
    const id = first.begin('sensor', 1234, '');
    first.sensor(id, 0, {
      id: 'a',
      name: 'Roof',
      manufacturer: null,
      model: null,
      serial: '12',
      firmware: null,
    });
    first.readings(id, [reading(0), reading(1, { pressurePa: null, condition: 'over_range' })]);
    first.readings(id, [reading(2)]);
    await first.mark(id, { kind: 'pump_on', elapsedS: 1.5, text: 'oil is fresh' }, 'hand');
    await first.sheetEntry(id, { elapsedS: 2, fields: { targetPa: 50 } });
    await first.close();

    const again = await Recorder.open(folder, listener);
    const { reader } = again;
    expect(reader.recording(id)).toMatchObject({
      origin: 'sensor',
      startedAtMs: 1234,
      open: true,
      sensors: [{ name: 'Roof', serial: '12' }],
    });
    expect(reader.readingsAfter(id, 0, 10)).toEqual({
      index: [1, 2, 3],
      channel: [0, 0, 0],
      boot: [1, 1, 1],
      sequence: [0, 1, 2],
      elapsedS: [0, 1, 2],
      pressurePa: [100 / 3, null, 100 / 3 + 2],
      temperatureC: [20.25, 20.25, 20.25],
      condition: ['ok', 'over_range', 'ok'],
    });
    expect(reader.readingsAfter(id, 1, 1).index).toEqual([2]);
    expect(reader.marks(id)).toEqual([
      { id: 1, kind: 'pump_on', elapsedS: 1.5, text: 'oil is fresh', madeBy: 'hand' },
    ]);
    expect(reader.sheet(id)).toEqual([{ elapsedS: 2, fields: { targetPa: 50 } }]);
    again.readings(id, [reading(3)]);
    await again.settled();
    expect(reader.lastIndex(id)).toBe(4);
    await again.close();
  });

  test('says a thing only once it can be read back', async () => {
    const unreadable: number[] = [];
    const recorder: Recorder = await Recorder.open(folder, {
      durable: (message) => {
        if (message.type !== 'readings') return;
        const last = message.columns.index.at(-1) ?? 0;
        if (recorder.reader.lastIndex(message.recordingId) < last) unreadable.push(last);
        said.push(message);
      },
      held: () => {},
    });
    const id = recorder.begin('sensor', 0, '');
    for (let sequence = 0; sequence < 500; sequence += 1)
      recorder.readings(id, [reading(sequence)]);
    await recorder.settled();
    expect(unreadable).toEqual([]);
    const indexes = said.flatMap((message) =>
      message.type === 'readings' ? message.columns.index : [],
    );
    expect(indexes).toEqual(Array.from({ length: 500 }, (_, position) => position + 1));
    await recorder.close();
  });

  test('refuses to rewrite a fact', async () => {
    const recorder = await Recorder.open(folder, listener);
    const id = recorder.begin('sensor', 0, '');
    recorder.readings(id, [reading(0)]);
    await recorder.close();
    const database = new Database(join(folder, RECORD_FILE));
    expect(() => database.exec('UPDATE reading SET pressure_pa = 1')).toThrow(/never rewritten/u);
    database.close();
  });

  test('an ended recording stays ended, and its title and end are kept', async () => {
    const recorder = await Recorder.open(folder, listener);
    const id = recorder.begin('rehearsal', 5, 'quay');
    recorder.end(id, 9);
    await recorder.settled();
    expect(recorder.reader.recording(id)).toMatchObject({ open: false, title: 'quay' });
    expect(said.at(-1)).toMatchObject({ type: 'recording', recording: { open: false } });
    await recorder.close();
  });

  test('finds what is open behind any number of later recordings', async () => {
    const recorder = await Recorder.open(folder, listener);
    const ids = Array.from({ length: 80 }, (_, at) => recorder.begin('sensor', at, ''));
    for (const id of ids) if (id !== ids[0] && id !== ids[70]) recorder.end(id, 0);
    await recorder.settled();
    expect(recorder.reader.openRecordings().map(({ id }) => id)).toEqual([ids[0], ids[70]]);
    await recorder.close();
  });
});

describe('calls and reveals', () => {
  const call: Call = { trainee: 'Ines', cause: 'leak', surePercent: 70, elapsedS: 812 };
  const reveal = {
    scenario: 'quay',
    seed: 4_294_967_295,
    truth: 'moisture',
    toldS: null,
    revealedAtMs: 1_700_000_000_000,
  } as const;

  test('are listed together, the latest first, also after a restart', async () => {
    const first = await Recorder.open(folder, listener);
    const ids = [0, 1, 2, 3].map((at) => first.begin('rehearsal', at, 'quay'));
    const [called = 0, revealed = 0, both = 0, later = 0] = ids;
    await first.call(called, call);
    await first.reveal(revealed, reveal);
    await first.call(both, call);
    await first.reveal(both, reveal);
    await first.call(later, { ...call, cause: 'moisture' });
    await first.reveal(later, { ...reveal, toldS: 95.5 });
    await first.close();

    const again = await Recorder.open(folder, listener);
    expect(again.reader.results()).toEqual([
      { ...call, ...reveal, recordingId: later, cause: 'moisture', toldS: 95.5 },
      { ...call, ...reveal, recordingId: both },
    ]);
    await again.close();
  });

  test('are kept as they were first said, and told to no screen', async () => {
    const recorder = await Recorder.open(folder, listener);
    const id = recorder.begin('rehearsal', 0, 'quay');
    await recorder.settled();
    const before = said.length;
    await recorder.call(id, call);
    await recorder.call(id, { ...call, cause: 'battery' });
    await recorder.reveal(id, reveal);
    await recorder.reveal(id, { ...reveal, truth: 'battery' });
    expect(said).toHaveLength(before);
    expect(recorder.reader.results()).toMatchObject([{ cause: 'leak', truth: 'moisture' }]);
    await recorder.close();

    const database = new Database(join(folder, RECORD_FILE));
    for (const change of ["rehearsal_call SET cause = 'leak'", 'rehearsal_reveal SET seed = 1']) {
      expect(() => database.exec(`UPDATE ${change}`)).toThrow(/never rewritten/u);
    }
    database.close();
  });
});

describe('a record of an earlier version', () => {
  test.each(MIGRATIONS.map((_, version) => version).slice(1))(
    'of version %i is kept as a copy, keeps its facts, and takes every origin, a call and a seen alert',
    async (version) => {
      const file = join(folder, RECORD_FILE);
      const old = new Database(file);
      for (const migration of MIGRATIONS.slice(0, version)) old.exec(migration);
      old.pragma(`user_version = ${version}`);
      old.exec("INSERT INTO recording VALUES (1, 'sensor', 1234, '')");
      old.exec("INSERT INTO reading VALUES (1, 1, 0, 7, 3, 3000, 3.1, 3, 12.5, NULL, 'ok')");
      old.close();

      const recorder = await Recorder.open(folder, listener);
      for (const origin of ORIGINS) recorder.begin(origin, 0, '');
      await recorder.settled();
      expect(recorder.reader.recording(1)).toMatchObject({ origin: 'sensor', startedAtMs: 1234 });
      expect(recorder.reader.readingsAfter(1, 0, 10).pressurePa).toEqual([12.5]);
      const origins = recorder.reader.openRecordings().map(({ origin }) => origin);
      expect(origins).toEqual(['sensor', ...ORIGINS]);
      expect(recorder.reader.results()).toEqual([]);
      await recorder.call(2, { trainee: 'Ines', cause: 'leak', surePercent: 70, elapsedS: 812 });
      await recorder.reveal(2, {
        scenario: 'quay',
        seed: 0,
        truth: 'leak',
        toldS: 3,
        revealedAtMs: 5,
      });
      expect(recorder.reader.results()).toMatchObject([{ recordingId: 2, truth: 'leak' }]);
      const seen = { alert: '0/target', untilS: 812, atMs: 5 };
      expect(recorder.reader.seenAlerts(1)).toEqual([]);
      await recorder.seenAlert(1, seen);
      expect(recorder.reader.seenAlerts(1)).toEqual([seen]);
      await recorder.close();

      const copy = new Database(`${file}.before-version-${MIGRATIONS.length}-from-${version}`);
      expect(copy.pragma('user_version', { simple: true })).toBe(version);
      expect(copy.prepare('SELECT COUNT(*) FROM recording').pluck().get()).toBe(1);
      copy.close();
    },
  );
});

describe('opening says plainly what is wrong', () => {
  test('a file that is no database: it is set aside as it is, and told of', async () => {
    const text = 'this is not a database, it is a text '.repeat(50);
    writeFileSync(join(folder, RECORD_FILE), text);
    const recorder = await Recorder.open(folder, listener);
    expect(recorder.setAside).toMatchObject({ readings: { saved: 0 } });
    const aside = recorder.setAside?.folder ?? '';
    expect(readFileSync(join(aside, RECORD_FILE), 'utf8')).toBe(text);
    await recorder.close();
  });

  test('no room for what can be saved: nothing has been moved', async () => {
    writeFileSync(join(folder, RECORD_FILE), 'this is not a database, it is a text '.repeat(50));
    // Whatever stands in the way of the new file.
    mkdirSync(join(folder, `${RECORD_FILE}.salvaged`, 'full'), { recursive: true });
    await expect(Recorder.open(folder, listener)).rejects.toMatchObject({
      code: 'record_not_salvaged',
    });
    expect(readdirSync(folder)).toEqual(['record.lock', RECORD_FILE, `${RECORD_FILE}.salvaged`]);
  });

  test('a record of a newer version, which is left untouched', async () => {
    const database = new Database(join(folder, RECORD_FILE));
    database.pragma('user_version = 99');
    database.close();
    await expect(Recorder.open(folder, listener)).rejects.toMatchObject({
      code: 'record_from_newer_version',
    });
    expect(readdirSync(folder)).toEqual(['record.lock', RECORD_FILE]);
  });

  test('a folder that another one writes to, naming its address', async () => {
    const first = await Recorder.open(folder, listener);
    first.tellAddress('http://127.0.0.1:4181/');
    await expect(Recorder.open(folder, listener)).rejects.toMatchObject({
      code: 'record_in_use',
      detail: `${folder}, http://127.0.0.1:4181/`,
    });
    await first.close();
    await (await Recorder.open(folder, listener)).close();
  });

  test('a folder that is a file', async () => {
    const file = join(folder, 'taken');
    writeFileSync(file, '');
    await expect(Recorder.open(file, listener)).rejects.toMatchObject({
      code: 'data_folder_unwritable',
      detail: expect.stringContaining(file),
    });
  });
});
