/** Where the parts meet: sources feed the record, the record feeds the stream, and pages see it all. */
import { fileURLToPath } from 'node:url';
import type { GivenLabel } from '../protocol/api.ts';
import { jobsIn } from '../protocol/job.ts';
import { readingsFromColumns } from '../protocol/reading.ts';
import type { RecordState } from '../protocol/record-state.ts';
import type { Origin, Recording } from '../protocol/recording.ts';
import type { NewSeenAlert } from '../protocol/seen-alert.ts';
import type { SourceState } from '../protocol/source-state.ts';
import type { Platform, RecordMessage } from '../protocol/stream.ts';
import packageJson from '../package.json' with { type: 'json' };
import { type JobRecord, JobListKeeper } from './jobs/job-list.ts';
import { CardFile } from './jobs/kept-cards.ts';
import type { JobAccess } from './http/jobs.ts';
import type { PreparedSheetAccess } from './http/prepared-sheets.ts';
import { latestMarkS } from './http/latest-mark.ts';
import { createWebServer } from './http/web-server.ts';
import type { Options, ShareOptions } from './options.ts';
import type { RecordReader } from './record/record-reader.ts';
import { readingChunks } from './record/reading-chunks.ts';
import { Recorder } from './record/recorder.ts';
import { Restorer } from './record/restorer.ts';
import { Feed, NEW_RECORDING_AFTER_S } from './sources/feed.ts';
import type { Unfinished } from './sources/feed.ts';
import { plainName } from './sources/import/readings-file.ts';
import { ImportDesk } from './sources/import/import-desk.ts';
import { RadioSource } from './sources/radio/radio-source.ts';
import { resumePoints } from './sources/resume-point.ts';
import { RehearsalDesk } from './sources/rehearsal/rehearsal-desk.ts';
import { Sharing } from './sharing/sharing.ts';
import type { Source } from './sources/source.ts';
import { TypedInDesk } from './sources/typed-in/typed-in-desk.ts';
import { platformOf } from './platform.ts';
import { Stream } from './stream/stream.ts';
import { Terminal } from './terminal.ts';
import { CursorFile } from './vans/publish/cursor-file.ts';
import { Publisher } from './vans/publish/publisher.ts';
import type { VanRecord } from './vans/publish/van-record.ts';

const SOFTWARE_VERSION = packageJson.version;
const PAGE_FOLDER = fileURLToPath(new URL('../web/dist', import.meta.url));
const CUT_SHORT = 'The bridge ended while this file was read in: the rest of it is missing.';

export interface Bridge {
  /** Address of the page. */
  readonly url: string;
  /** Where it is shared now, and by which certificate; no addresses: nowhere. */
  sharedAt(): { readonly addresses: readonly string[]; readonly fingerprint: string };
  close(): Promise<void>;
}

interface Surroundings {
  /** Where sensors' readings come from; the tests put a radio on a virtual air in its place. */
  readonly sensors?: Source;
  readonly wallClock?: () => number;
  readonly pageFolder?: string;
  readonly platform?: Platform;
}

/**
 * Starts everything.
 * @throws ProblemError where the port is taken, or the data folder or record can't be used
 */
export async function startBridge(
  options: Pick<Options, 'port' | 'dataFolder'> & Partial<Pick<Options, 'share' | 'publish'>>,
  surroundings: Surroundings = {},
): Promise<Bridge> {
  const wallClock = surroundings.wallClock ?? Date.now;
  const share = options.share ?? null;
  let jobs: JobListKeeper | null = null;
  let publisher: Publisher | null = null;
  const terminal = new Terminal((line) => console.error(line));
  const sensors = surroundings.sensors ?? new RadioSource({ log: terminal.log.bind(terminal) });

  const publish = (message: RecordMessage): void => {
    stream.publish(message);
    publisher?.changed(idOf(message), message.type === 'readings');
    if (message.type !== 'readings' && message.type !== 'seen_alert') jobs?.changed(idOf(message));
  };
  const tellOfRecord = (state: RecordState): void => {
    terminal.record(state);
    stream.recordState(state);
  };
  const recorder = await Recorder.open(options.dataFolder, {
    durable: publish,
    held: ({ sinceMs, detail, waiting, refused }) =>
      tellOfRecord({ kind: 'held', sinceMs, detail, waiting, refused }),
    stalled: (stalled) => tellOfRecord({ kind: 'stalled', ...stalled }),
    mending: () => terminal.mending(),
    relieved: () => tellOfRecord({ kind: 'kept' }),
    damaged: ({ sinceMs, detail, file }) =>
      tellOfRecord({ kind: 'damaged', sinceMs, detail, file }),
  });
  const stream = new Stream({
    record: recorder.reader,
    softwareVersion: SOFTWARE_VERSION,
    platform: surroundings.platform ?? platformOf(process.platform),
    recordings: () => worthShowing(recorder.reader),
    log: terminal.log.bind(terminal),
  });
  if (recorder.halfRemoved !== null) terminal.halfRestored(recorder.halfRemoved);
  if (recorder.setAside !== null) tellOfRecord({ kind: 'salvaged', ...recorder.setAside });
  endWhatIsOver(recorder, wallClock());
  await recorder.settled();
  const keeper = new JobListKeeper(
    jobRecord(recorder.reader),
    new CardFile(options.dataFolder, SOFTWARE_VERSION),
    terminal.log.bind(terminal),
  );
  jobs = keeper;

  if (options.publish) {
    const { van, address } = options.publish;
    publisher = new Publisher({
      ...options.publish,
      record: vanRecord(recorder.reader),
      cursors: new CursorFile(options.dataFolder, `${address.host}:${address.port} ${van}`),
      softwareVersion: SOFTWARE_VERSION,
      wallClock,
      log: terminal.log.bind(terminal),
      office: stream.officeState.bind(stream),
    });
  }

  const onState = (state: SourceState): void => {
    terminal.state(state);
    stream.sourceState(state);
  };
  const common = { ledger: recorder, wallClock, onState };
  const settled = recorder.settled.bind(recorder);
  const desk = new RehearsalDesk({ ...common, settled });
  const imports = new ImportDesk({
    ...common,
    settled,
    takenFrom: recorder.takenFrom.bind(recorder),
  });
  const typedIn = new TypedInDesk({
    ...common,
    unfinished: unfinished(recorder.reader, 'typed_in'),
    takeBack: recorder.takeBack.bind(recorder),
    readingAt: (recordingId, index) =>
      readingsFromColumns(recorder.reader.readingsAfter(recordingId, index - 1, 1))[0],
  });
  const feed = new Feed({
    ...common,
    origin: 'sensor',
    title: '',
    marksMadeBy: 'hand',
    unfinished: unfinished(recorder.reader, 'sensor'),
  });
  const durable = async (recordingId: number): Promise<Recording> => {
    await settled();
    return present(recorder.reader, recordingId);
  };

  const restorer = new Restorer(recorder, wallClock);

  const server = await createWebServer({
    pageFolder: surroundings.pageFolder ?? PAGE_FOLDER,
    health: {
      product: 'ebbline',
      softwareVersion: SOFTWARE_VERSION,
      dataFolder: options.dataFolder,
    },
    record: recordAccess(recorder, wallClock),
    wallClock,
    rehearsals: {
      list: () => desk.list(),
      start: (wish) => durable(desk.start(wish)),
      steer: (wish) => desk.steer(wish),
      call: (call) => desk.call(call),
      reveal: (wish) => desk.reveal(wish),
      results: () => recorder.reader.results(),
    },
    readInWhole: (name, format, text) => restorer.readIn(plainName(name), format, text),
    backups: {
      make: () => restorer.backup(),
      restore: (write) => restorer.restore(write),
    },
    readIn: async (name, text, remark) => durable(await imports.read(name, text, remark)),
    typedIn: {
      type: (reading) => durable(typedIn.type(reading)),
      correct: (correction) => durable(typedIn.correct(correction)),
      end: async () => durable(await typedIn.end()),
    },
    sensorLabels: {
      list: () => recorder.reader.labels(),
      knows: (sensorId) => recorder.reader.knowsSensor(sensorId),
      calibrate: async (calibration) => {
        const given = { ...calibration, givenAtMs: wallClock() };
        await recorder.calibration(given);
        tellOfSensor(recorder.reader, publish, given.sensorId);
        return given;
      },
      give: async (label) => {
        const given = await giveLabel(recorder, publish, { ...label, givenAtMs: wallClock() });
        sensors.choose?.(chosenSensors(recorder.reader));
        return given;
      },
    },
    preparedSheets: preparedSheetAccess(recorder, wallClock),
    jobs: jobAccess(recorder, keeper, wallClock),
    onScreen: stream.attach.bind(stream),
    sharing: share === null ? null : sharingWith(options.dataFolder, share, wallClock),
    log: terminal.log.bind(terminal),
  });

  const close = async (): Promise<void> => {
    desk.stop();
    await Promise.all([sensors.stop(), imports.stop(), typedIn.stop(), publisher?.close()]);
    stream.close();
    await server.close();
    await keeper.close();
    await recorder.close();
  };
  try {
    const port = await server.listen(options.port);
    if (share !== null) await server.share(share.port);
    sensors.start(feed);
    sensors.choose?.(chosenSensors(recorder.reader));
    const url = `http://127.0.0.1:${port}/`;
    recorder.tellAddress(url);
    publisher?.start();
    return { url, sharedAt: () => server.sharedAt(), close };
  } catch (error) {
    await close();
    throw error;
  }
}

/**
 * Neither a rehearsal nor the reading in of a file can outlive its bridge; a visit is over after so
 * long a silence.
 */
function endWhatIsOver(recorder: Recorder, nowMs: number): void {
  for (const { id, origin, startedAtMs } of recorder.reader.openRecordings()) {
    const lastElapsedS = recorder.reader.lastElapsedS(id) ?? 0;
    if (origin === 'import') {
      void recorder.mark(id, { kind: 'note', elapsedS: lastElapsedS, text: CUT_SHORT }, 'import');
    }
    const silenceS = (nowMs - startedAtMs) / 1000 - lastElapsedS;
    const visit = origin === 'sensor' || origin === 'typed_in';
    if (!visit || silenceS > NEW_RECORDING_AFTER_S) recorder.end(id, nowMs);
  }
}

function sharingWith(dataFolder: string, share: ShareOptions, clock: () => number): Sharing {
  const { addresses } = share;
  const named = addresses.length > 0 ? { addresses: () => addresses } : {};
  return new Sharing({ dataFolder, clock, ...named });
}

function unfinished(reader: RecordReader, of: Origin): Unfinished | null {
  const recording = reader.openRecordings().findLast(({ origin }) => origin === of);
  if (!recording) return null;
  return {
    recordingId: recording.id,
    startedAtMs: recording.startedAtMs,
    lastElapsedS: reader.lastElapsedS(recording.id) ?? 0,
    sensors: recording.sensors,
    // Numbers that a hand types begin anew with each start.
    ...(of === 'sensor' ? { resumePoints: resumePointsOf(reader, recording.id) } : {}),
  };
}

/** A recording that is running says at once how its sensor is called. */
async function giveLabel(
  recorder: Recorder,
  publish: (message: RecordMessage) => void,
  label: GivenLabel,
): Promise<GivenLabel> {
  await recorder.label(label);
  tellOfSensor(recorder.reader, publish, label.sensorId);
  return label;
}

function tellOfSensor(
  reader: RecordReader,
  publish: (message: RecordMessage) => void,
  sensorId: string,
): void {
  for (const recording of reader.openRecordings()) {
    const has = recording.sensors.some(({ id }) => id === sensorId);
    if (has) publish({ type: 'recording', recording });
  }
}

/** Who has said anything of a sensor wants to hear it. */
function chosenSensors(reader: RecordReader): string[] {
  const said = reader.labels().filter(({ name, place }) => name !== '' || place !== 'unknown');
  return said.map(({ sensorId }) => sensorId);
}

function resumePointsOf(reader: RecordReader, recordingId: number) {
  return resumePoints(reader.latestStamps(recordingId), reader.highestBeforeStamps(recordingId));
}

/** What can still grow, the latest last; before it the latest that has ended, for a look back. */
function worthShowing(reader: RecordReader): Recording[] {
  const open = reader.openRecordings();
  const ended = reader.recordings(open.length + 1).find((recording) => !recording.open);
  return [...(ended ? [ended] : []), ...open];
}

function present(reader: RecordReader, recordingId: number): Recording {
  const recording = reader.recording(recordingId);
  if (!recording) throw new Error(`recording ${recordingId} is durable and is not there`);
  return recording;
}

function recordAccess(recorder: Recorder, wallClock: () => number) {
  const { reader } = recorder;
  return {
    recordings: reader.recordings.bind(reader),
    recording: reader.recording.bind(reader),
    marks: reader.marks.bind(reader),
    sheet: reader.sheet.bind(reader),
    takenBack: reader.takenBack.bind(reader),
    seenAlerts: reader.seenAlerts.bind(reader),
    lastIndex: reader.lastIndex.bind(reader),
    lastElapsedS: reader.lastElapsedS.bind(reader),
    readingsAfter: reader.readingsAfter.bind(reader),
    facts: recorder.facts,
    readingChunks: (recordingId: number) => readingChunks(reader, recordingId),
    verified: recorder.verified.bind(recorder),
    addMark: (recordingId: number, mark: Parameters<Recorder['mark']>[1]) =>
      recorder.mark(recordingId, mark, 'hand'),
    takeMarkBack: (recordingId: number, markId: number) =>
      recorder.takeMarkBack(recordingId, markId, wallClock()),
    signOffs: reader.signOffs.bind(reader),
    marksTakenBack: reader.marksTakenBack.bind(reader),
    addSheetEntry: recorder.sheetEntry.bind(recorder),
    addSeenAlert: (recordingId: number, seen: NewSeenAlert) =>
      recorder.seenAlert(recordingId, { ...seen, atMs: wallClock() }),
  };
}

function idOf(message: RecordMessage): number {
  return message.type === 'recording' ? message.recording.id : message.recordingId;
}

function jobRecord(reader: RecordReader): JobRecord {
  return {
    recordingIds: reader.recordingIds.bind(reader),
    recording: reader.recording.bind(reader),
    marks: reader.marks.bind(reader),
    sheet: reader.sheet.bind(reader),
    signOffs: reader.signOffs.bind(reader),
    archivedJobs: reader.archivedJobs.bind(reader),
    lastElapsedS: reader.lastElapsedS.bind(reader),
    deletedStretches: reader.deletedStretches.bind(reader),
    chainLength: reader.chainLength.bind(reader),
    readingChunks: (recordingId) => readingChunks(reader, recordingId),
  };
}

/** What a job takes over is entered on its own sheet: the report of it needs nothing else. */
function preparedSheetAccess(recorder: Recorder, wallClock: () => number): PreparedSheetAccess {
  return {
    list: () => recorder.preparedSheets.list(),
    latestS: (recordingId) => {
      const recording = recorder.reader.recording(recordingId);
      if (recording === null) return null;
      const lastS = recorder.reader.lastElapsedS(recordingId);
      // A job may have been begun after the last reading.
      const begunS = jobsIn(recorder.reader.marks(recordingId)).at(-1)?.fromS ?? 0;
      return Math.max(begunS, latestMarkS(recording, 'job_begun', lastS, wallClock()));
    },
    keep: ({ prepared, fields }) =>
      recorder.prepare(prepared, { fields, usedIn: null, usedS: null, atMs: wallClock() }),
    use: (prepared, where) => recorder.usePrepared(prepared, where, wallClock()),
    discard: (prepared) => recorder.discardPrepared(prepared, wallClock()),
  };
}

function vanRecord(reader: RecordReader): VanRecord {
  return {
    recordingIds: reader.recordingIds.bind(reader),
    recording: reader.recording.bind(reader),
    marks: reader.marks.bind(reader),
    sheet: reader.sheet.bind(reader),
    signOffs: reader.signOffs.bind(reader),
    takenBack: reader.takenBack.bind(reader),
    deletedStretches: reader.deletedStretches.bind(reader),
    chainLength: reader.chainLength.bind(reader),
    lastIndex: reader.lastIndex.bind(reader),
    readingsAfter: reader.readingsAfter.bind(reader),
  };
}

/** What is said of a job changes its card, though the stream says nothing of it. */
function jobAccess(recorder: Recorder, jobs: JobListKeeper, wallClock: () => number): JobAccess {
  return {
    find: jobs.find.bind(jobs),
    card: jobs.card.bind(jobs),
    curves: jobs.curves.bind(jobs),
    archive: async (recordingId, beginMark, archived) => {
      await recorder.archive(recordingId, beginMark, archived, wallClock());
      jobs.changed(recordingId);
    },
    deleteForGood: async (recordingId, beginMark) => {
      await recorder.deleteJob(recordingId, beginMark, wallClock());
      jobs.changed(recordingId);
    },
    signOff: async (recordingId, signOff) => {
      const softwareVersion = SOFTWARE_VERSION;
      const lastS = jobs.lastReadingS(recordingId, signOff.beginMark);
      const signed = { ...signOff, lastS, softwareVersion, atMs: wallClock() };
      await recorder.signOff(recordingId, signed);
      jobs.changed(recordingId);
      return signed;
    },
  };
}
