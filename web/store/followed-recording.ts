/** The recording that the page shows: its facts, and what follows from them. */
import { batch, computed, signal } from '@preact/signals';
import { z } from 'zod';
import { entriesOf, isWithin, type Job, jobsIn, WHOLE_JOB } from '../../protocol/job.ts';
import type { Mark } from '../../protocol/mark.ts';
import { readingsFromColumns, type Reading, type ReadingColumns } from '../../protocol/reading.ts';
import type { Recording } from '../../protocol/recording.ts';
import type { SeenAlert } from '../../protocol/seen-alert.ts';
import type { Sheet, SheetEntry } from '../../protocol/sheet.ts';
import { sheetOfSensor } from '../../protocol/sheet-of-sensor.ts';
import type { TakenBack } from '../../protocol/typed-in.ts';
import type { Conclusions, Rise } from '../analysis/conclusions.ts';
import type { Rehearsed } from '../analysis/training/debrief.ts';
import type { Finding } from '../analysis/training/finding.ts';
import { type LeakHunt, leakHunt } from '../analysis/hunt/leak-hunt.ts';
import { type Numbers, numbersOf } from '../analysis/numbers.ts';
import {
  COMPARED_S,
  type SideDifference,
  sideDifference,
  type SidePoint,
  WIDEST_S,
} from '../analysis/seen/side-difference.ts';
import {
  heardTogether,
  sensorSaid,
  type SlowestVerdict,
  slowestVerdict,
} from '../analysis/verdict/slowest-verdict.ts';
import { type TripleTold, tripleTold } from '../analysis/cycles/triple-told.ts';
import type { ChannelCurve } from './channel-curve.ts';
import { seesSystem } from '../analysis/verdict/verdict.ts';
import { isOfRelease, type VacuumLoss, vacuumLoss } from '../analysis/closing/vacuum-loss.ts';
import type { ChannelReadings } from './channel-readings.ts';
import { FollowedChannel } from './followed-channel.ts';
import { recallHere, rememberHere } from './remembered.ts';
import { watchedByDefault } from './watched-by-default.ts';

const DRAW_PART_EVERY_MS = 400;

export class FollowedRecording {
  readonly id: number;
  readonly #allMarks = signal<readonly Mark[]>([]);
  readonly #allEntries = signal<readonly SheetEntry[]>([]);
  /** The mark at which the job begins that somebody chose to look at; null: the latest is shown. */
  readonly #chosenJob = signal<number | null>(null);
  /** All its jobs; there is always one. */
  readonly jobs = computed(() => jobsIn(this.#allMarks.value));
  /** The one that is shown. */
  readonly job = computed<Job>(() => {
    const jobs = this.jobs.value;
    const chosen = jobs.find(({ beginMark }) => beginMark === this.#chosenJob.value);
    return chosen ?? jobs.at(-1) ?? WHOLE_JOB;
  });
  /** Whether what is shown is over, though the recording goes on. */
  readonly isEarlierJob = computed(() => this.job.value.untilS !== null);
  /** Of the job. */
  readonly marks = computed(() => {
    const job = this.job.value;
    return this.#allMarks.value.filter(({ elapsedS }) => isWithin(job, elapsedS));
  });
  /** Those that hold for the job. */
  readonly entries = computed(() => entriesOf(this.job.value, this.#allEntries.value));
  /** Typed-in readings that were slips: no longer among the readings. */
  readonly takenBack = signal<readonly TakenBack[]>([]);
  /** Alerts that somebody has seen, on whichever page. */
  readonly seenAlerts = signal<readonly SeenAlert[]>([]);
  /** As it is known now: its sensors' names and places may change on the way. */
  readonly recording = signal<Pick<Recording, 'sensors' | 'startedAtMs'>>({
    sensors: [],
    startedAtMs: 0,
  });
  readonly channel = signal(0);
  /** As it holds for the sensor that is watched. */
  readonly sheet = computed(() =>
    sheetOfSensor(this.entries.value, this.recording.value, this.channel.value),
  );
  /** Counts what came in, so that drawing and judging know that there is something new. */
  readonly revision = signal(0);
  readonly latest = signal<Reading | null>(null);
  readonly conclusions = signal<Conclusions | null>(null);
  /** Of the hold by all sensors that watch the system; null outside of one, and where one alone does. */
  readonly together = signal<SlowestVerdict | null>(null);
  /** Reckoned only while something shows them. */
  readonly numbers = computed<Numbers | null>(() => {
    const conclusions = this.conclusions.value;
    if (conclusions === null) return null;
    return numbersOf(
      this.#channel(this.channel.value).judging.history,
      conclusions,
      this.sheet.value,
      { marks: this.marks.value, entries: this.entries.value },
    );
  });
  /** Evacuations with nitrogen between: reckoned only while something shows them. */
  readonly cycles = computed<TripleTold | null>(() => {
    const nowS = this.conclusions.value?.nowS;
    const { history } = this.#channel(this.channel.value).judging;
    return nowS === undefined
      ? null
      : tripleTold(history, this.marks.value, this.entries.value, nowS);
  });
  readonly #channels = new Map<number, FollowedChannel>();
  /** The job whose readings are folded. */
  #folded: Job = WHOLE_JOB;
  /** Since then nothing of the parts that came was drawn; null: all of it is here. */
  #undrawnSinceMs: number | null = null;
  /** Chosen by hand: no sensor that is found later takes the screen away from it. */
  #isChosen = false;

  /** Typed by hand, minutes apart: nothing can be missing between two readings. */
  readonly typedIn: boolean;

  constructor(id: number, typedIn = false) {
    this.id = id;
    this.typedIn = typedIn;
  }

  get readings(): ChannelReadings {
    return this.#channel(this.channel.value).readings;
  }

  get curve(): ChannelCurve {
    return this.#channel(this.channel.value).curve;
  }

  readingsOf(channel: number): ChannelReadings {
    return this.#channel(channel).readings;
  }

  curveOf(channel: number): ChannelCurve {
    return this.#channel(channel).curve;
  }

  /** How much more another sensor shows than the one that is watched; null where nobody can say. */
  differenceTo(channel: number): SideDifference | null {
    const endS = Math.max(endOf(this.readings), endOf(this.readingsOf(channel)));
    const fromS = endS - COMPARED_S - WIDEST_S;
    return sideDifference(
      pointsFrom(this.readings, fromS),
      pointsFrom(this.readingsOf(channel), fromS),
    );
  }

  /** @param isAll that there is; else the next part of it is on its way */
  insert(columns: ReadingColumns, isAll = true): void {
    const incoming = readingsFromColumns(columns);
    for (const number of new Set(incoming.map((reading) => reading.channel))) {
      this.#channel(number).insert(incoming);
    }
    if (isAll) this.#undrawnSinceMs = null;
    else if (!this.#isWorthDrawing()) return;
    this.revision.value += 1;
  }

  takeFacts(marks: readonly Mark[], entries: readonly SheetEntry[]): void {
    batch(() => {
      this.#allMarks.value = marks;
      this.#allEntries.value = entries;
      this.#foldJob();
      this.revision.value += 1;
    });
  }

  /** @param beginMark of the job to be shown; null: the latest, whichever that is */
  chooseJob(beginMark: number | null): void {
    batch(() => {
      this.#chosenJob.value = beginMark;
      this.#foldJob();
      this.revision.value += 1;
    });
  }

  /** A job begins in the one that is shown: whoever follows the latest comes to it by itself. */
  goOnTo(beginMark: number): void {
    if (this.#chosenJob.peek() !== null) this.chooseJob(beginMark);
  }

  /** A mark was a slip. */
  takeMarkBack(markId: number): void {
    const others = this.#allMarks.value.filter(({ id }) => id !== markId);
    this.takeFacts(others, this.#allEntries.value);
  }

  takeMark(mark: Mark): void {
    const others = this.#allMarks.value.filter((known) => known.id !== mark.id);
    this.takeFacts([...others, mark], this.#allEntries.value);
  }

  takeEntry(entry: SheetEntry): void {
    this.takeFacts(this.#allMarks.value, [...this.#allEntries.value, entry]);
  }

  /** A slip goes as if it had never been typed: what follows from the readings is drawn anew. */
  takeBack(readings: readonly TakenBack[]): void {
    const known = this.takenBack
      .peek()
      .filter((one) => readings.every((r) => r.index !== one.index));
    const slips = new Set(readings.map(({ index }) => index));
    batch(() => {
      this.takenBack.value = [...known, ...readings].sort((a, b) => a.index - b.index);
      for (const channel of this.#channels.values()) channel.takeBack(slips);
      this.revision.value += 1;
    });
  }

  takeSeen(seen: readonly SeenAlert[]): void {
    this.seenAlerts.value = seen;
  }

  takeRecording(recording: Recording): void {
    batch(() => {
      this.recording.value = recording;
      this.#recallChosen();
      const channel = this.#isChosen ? this.channel.peek() : watchedByDefault(recording.sensors);
      if (channel !== this.channel.peek()) this.#show(channel);
      else this.revision.value += 1;
    });
  }

  watch(channel: number): void {
    this.#isChosen = true;
    rememberHere(this.#chosenKey, channel);
    this.#show(channel);
  }

  /** As it was chosen in this window before: it stays, however one comes back to the recording. */
  #recallChosen(): void {
    if (this.#isChosen) return;
    const channel = recallHere(this.#chosenKey, z.int().min(0).nullable(), null);
    if (channel === null || this.recording.value.sensors[channel] === undefined) return;
    this.#isChosen = true;
    this.#show(channel);
  }

  get #chosenKey(): string {
    return `watched.${this.recording.value.startedAtMs}.${this.id}`;
  }

  #show(channel: number): void {
    this.channel.value = channel;
    this.revision.value += 1;
    this.refreshReading();
    this.judge();
  }

  refreshReading(): void {
    this.latest.value = this.readings.latest();
  }

  judge(): void {
    // What follows from a part of the readings would be of no moment that is, or was, the present.
    if (this.#undrawnSinceMs !== null) return;
    const concluded = this.#conclude(this.channel.value, this.sheet.value);
    const rise = concluded?.stage.name === 'rise' ? concluded.rise : null;
    const together = rise === null ? null : this.#together(rise);
    batch(() => {
      this.together.value = together;
      this.conclusions.value =
        concluded === null || rise === null
          ? concluded
          : { ...concluded, rise: heardTogether(rise, together) };
    });
  }

  #conclude(channel: number, sheet: Sheet): Conclusions | null {
    const { judging } = this.#channel(channel);
    return judging.conclude(this.marks.value, sheet, this.entries.value);
  }

  /** Whether the vacuum of a hold was lost after it had been judged, by the conclusions of now. */
  vacuumLoss(isolatedS: number, judgedS: number): VacuumLoss | null {
    // Up to the present also where what was concluded stands since the system was closed up.
    const { history, judgedS: nowS } = this.#channel(this.channel.peek()).judging;
    if (nowS === null) return null;
    const { leakLimitPaPerS } = this.sheet.peek();
    const loss = vacuumLoss(history, { isolatedS, judgedS }, nowS, leakLimitPaPerS);
    return loss !== null && isOfRelease(loss, this.marks.peek()) ? null : loss;
  }

  /** All holds by what the sensor saw in them, up to a moment: fitted when somebody asks. */
  leakHunt(nowS: number): LeakHunt {
    const { history } = this.#channel(this.channel.peek()).judging;
    return leakHunt(history, this.marks.peek(), this.entries.peek(), nowS);
  }

  /** Null where fewer than two that gave readings see the system. */
  #together(watched: Rise): SlowestVerdict | null {
    const recording = this.recording.peek();
    const said = recording.sensors.flatMap((_, channel) => {
      if (this.readingsOf(channel).length === 0) return [];
      const sheet = sheetOfSensor(this.entries.peek(), recording, channel);
      if (!seesSystem(sheet)) return [];
      return [sensorSaid(channel, this.#riseOf(channel, sheet, watched), sheet)];
    });
    return said.length < 2 ? null : slowestVerdict(said);
  }

  #riseOf(channel: number, sheet: Sheet, watched: Rise): Rise | null {
    if (channel === this.channel.peek()) return watched;
    const concluded = this.#conclude(channel, sheet);
    return concluded?.stage.name === 'rise' ? concluded.rise : null;
  }

  debrief(told: Pick<Rehearsed, 'call' | 'reveal' | 'helped'>): Finding[] {
    const { judging } = this.#channel(this.channel.value);
    return judging.debrief({ ...told, marks: this.marks.value, sheet: this.sheet.value });
  }

  /** What was drawn from another job's readings says nothing of this one. */
  #foldJob(): void {
    const job = this.job.peek();
    const { fromS, untilS } = this.#folded;
    if (job.fromS === fromS && job.untilS === untilS) return;
    this.#folded = job;
    for (const channel of this.#channels.values()) channel.show(job);
    this.refreshReading();
    this.judge();
  }

  /** A curve that comes in parts is drawn now and then, so that it comes soon and is seen to come. */
  #isWorthDrawing(): boolean {
    const nowMs = performance.now();
    this.#undrawnSinceMs ??= nowMs;
    if (nowMs < this.#undrawnSinceMs + DRAW_PART_EVERY_MS) return false;
    this.#undrawnSinceMs = nowMs;
    return true;
  }

  #channel(number: number): FollowedChannel {
    const known = this.#channels.get(number);
    if (known !== undefined) return known;
    const created = new FollowedChannel(number, this.typedIn, this.#folded);
    this.#channels.set(number, created);
    return created;
  }
}

function endOf(readings: ChannelReadings): number {
  return readings.length === 0 ? 0 : readings.elapsedS(readings.length - 1);
}

/** Of a sensor that is warming up there is a number, and it is not to be compared. */
function pointsFrom(readings: ChannelReadings, fromS: number): SidePoint[] {
  const points: SidePoint[] = [];
  for (let row = readings.rowFrom(fromS); row < readings.length; row += 1) {
    const { elapsedS, pressurePa, condition } = readings.reading(row);
    points.push({ elapsedS, pressurePa: condition === 'ok' ? (pressurePa ?? NaN) : NaN });
  }
  return points;
}
