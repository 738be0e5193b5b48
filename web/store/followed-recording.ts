/** The recording that the page shows: its facts, and what follows from them. */
import { batch, computed, signal } from '@preact/signals';
import { z } from 'zod';
import type { Mark } from '../../protocol/mark.ts';
import { readingsFromColumns, type Reading, type ReadingColumns } from '../../protocol/reading.ts';
import type { Recording } from '../../protocol/recording.ts';
import type { SeenAlert } from '../../protocol/seen-alert.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import { sheetOfSensor } from '../../protocol/sheet-of-sensor.ts';
import type { TakenBack } from '../../protocol/typed-in.ts';
import type { Conclusions } from '../analysis/conclusions.ts';
import type { Rehearsed } from '../analysis/debrief.ts';
import type { Finding } from '../analysis/finding.ts';
import { Judging } from '../analysis/judging.ts';
import { type Numbers, numbersOf } from '../analysis/numbers.ts';
import {
  COMPARED_S,
  type SideDifference,
  sideDifference,
  type SidePoint,
  WIDEST_S,
} from '../analysis/side-difference.ts';
import { ChannelCurve } from './channel-curve.ts';
import { type VacuumLoss, vacuumLoss } from '../analysis/vacuum-loss.ts';
import { ChannelReadings } from './channel-readings.ts';
import { recallHere, rememberHere } from './remembered.ts';
import { watchedByDefault } from './watched-by-default.ts';

interface Channel {
  readonly readings: ChannelReadings;
  readonly curve: ChannelCurve;
  readonly judging: Judging;
}

export class FollowedRecording {
  readonly id: number;
  readonly marks = signal<readonly Mark[]>([]);
  readonly entries = signal<readonly SheetEntry[]>([]);
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
  /** Reckoned only while something shows them. */
  readonly numbers = computed<Numbers | null>(() => {
    const conclusions = this.conclusions.value;
    if (conclusions === null) return null;
    return numbersOf(
      this.#channel(this.channel.value).judging.history,
      conclusions,
      this.sheet.value,
    );
  });
  readonly #channels = new Map<number, Channel>();
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

  insert(columns: ReadingColumns): void {
    const incoming = readingsFromColumns(columns);
    for (const number of new Set(incoming.map((reading) => reading.channel))) {
      const { readings, curve, judging } = this.#channel(number);
      const fresh = readings.insert(incoming);
      judging.insert(fresh);
      curve.insert(fresh);
    }
    this.revision.value += 1;
  }

  takeFacts(marks: readonly Mark[], entries: readonly SheetEntry[]): void {
    batch(() => {
      this.marks.value = marks;
      this.entries.value = entries;
      this.revision.value += 1;
    });
  }

  takeMark(mark: Mark): void {
    const others = this.marks.value.filter((known) => known.id !== mark.id);
    this.takeFacts([...others, mark], this.entries.value);
  }

  takeEntry(entry: SheetEntry): void {
    this.takeFacts(this.marks.value, [...this.entries.value, entry]);
  }

  /** A slip goes as if it had never been typed: what follows from the readings is drawn anew. */
  takeBack(readings: readonly TakenBack[]): void {
    const known = this.takenBack
      .peek()
      .filter((one) => readings.every((r) => r.index !== one.index));
    const slips = new Set(readings.map(({ index }) => index));
    batch(() => {
      this.takenBack.value = [...known, ...readings].sort((a, b) => a.index - b.index);
      for (const [number, { readings: held }] of this.#channels) {
        const all = Array.from({ length: held.length }, (_, row) => held.reading(row));
        const kept = all.filter(({ index }) => !slips.has(index));
        if (kept.length === all.length) continue;
        this.#channels.delete(number);
        const anew = this.#channel(number);
        const fresh = anew.readings.insert(kept);
        anew.curve.insert(fresh);
        anew.judging.insert(fresh);
      }
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
    const { judging } = this.#channel(this.channel.value);
    this.conclusions.value = judging.conclude(this.marks.value, this.sheet.value);
  }

  /** Whether the vacuum of a hold was lost after it had been judged, by the conclusions of now. */
  vacuumLoss(isolatedS: number, judgedS: number): VacuumLoss | null {
    const nowS = this.conclusions.peek()?.nowS ?? judgedS;
    const { history } = this.#channel(this.channel.peek()).judging;
    const { leakLimitPaPerS } = this.sheet.peek();
    return vacuumLoss(history, { isolatedS, judgedS }, nowS, leakLimitPaPerS);
  }

  debrief(told: Pick<Rehearsed, 'call' | 'reveal' | 'helped'>): Finding[] {
    const { judging } = this.#channel(this.channel.value);
    return judging.debrief({ ...told, marks: this.marks.value, sheet: this.sheet.value });
  }

  #channel(number: number): Channel {
    const known = this.#channels.get(number);
    if (known !== undefined) return known;
    const readings = new ChannelReadings(number);
    const created = {
      readings,
      curve: new ChannelCurve(readings, this.typedIn),
      judging: new Judging(this.typedIn),
    };
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
