/**
 * A job: one visit to one system, a stretch of a recording. It begins at a mark of its own, which may be set
 * afterwards, and lasts until the next job begins; the first one begins with the recording.
 */
import { z } from 'zod';
import type { Mark } from './mark.ts';
import {
  DEFAULT_SHEET,
  type Sheet,
  type SheetEntry,
  sheetFromEntries,
  sheetSchema,
} from './sheet.ts';

/** In the place of a mark's number: the job that begins with its recording. */
export const FIRST_JOB = 0;

/** Which job of a recording: the number of the mark at which it begins. */
export const beginMarkSchema = z.int().min(FIRST_JOB);

export interface Job {
  readonly beginMark: number;
  /** Data time at which it begins, s. */
  readonly fromS: number;
  /** Data time at which the next one begins; null: it lasts as long as the recording. */
  readonly untilS: number | null;
}

/** A recording as long as nobody says that a job begins in it. */
export const WHOLE_JOB: Job = { beginMark: FIRST_JOB, fromS: 0, untilS: null };

/** All jobs of a recording, in the order of data time: there is always one. */
export function jobsIn(marks: readonly Mark[]): Job[] {
  const begins = marks
    .filter(({ kind }) => kind === 'job_begun')
    .sort((a, b) => a.elapsedS - b.elapsedS || a.id - b.id);
  const all = [{ id: FIRST_JOB, elapsedS: 0 }, ...begins];
  return all.map(({ id, elapsedS }, at) => ({
    beginMark: id,
    fromS: elapsedS,
    untilS: all[at + 1]?.elapsedS ?? null,
  }));
}

/** @returns null where the recording has no such job */
export function jobOf(marks: readonly Mark[], beginMark: number): Job | null {
  return jobsIn(marks).find((job) => job.beginMark === beginMark) ?? null;
}

export function isWithin({ fromS, untilS }: Job, elapsedS: number): boolean {
  return elapsedS >= fromS && (untilS === null || elapsedS < untilS);
}

/**
 * What is carried along from one job to the next: gear, what is known of the gauge, and who works. Neither another system nor
 * limits that somebody set for it; whoever begins a job enters these for it, so that it stands by itself.
 */
const GEAR: readonly (keyof Sheet)[] = [
  'gaugeErrorShare',
  'pumpDisplacementM3PerS',
  'pumpUltimatePa',
  'pumpBatteryS',
  'hoseBoreM',
  'hoseLengthM',
  'hoseCount',
  'people',
  'pumpBallast',
  'pumpOilChangedOn',
  'stubVolumeM3',
  'nitrogenGauge',
];

/** Stands with the gauge, and is another's: the limit that a maker sets for its equipment, and the air of that day. */
const NOT_OF_THE_GAUGE = { makersMost: null, ambientPa: null } as const;

/**
 * What holds for the same equipment at another visit. Nothing of what was measured or done that day: it would pass
 * for this day's.
 */
const OF_EQUIPMENT: readonly (keyof Sheet)[] = [
  'site',
  'equipment',
  'serial',
  'refrigerant',
  'oil',
  'targetPa',
  'isolateAtPa',
  'holdS',
  'endLimitPa',
  'allowedRisePa',
  'passRule',
  'leakLimitPaPerS',
  'altitudeM',
  'coldestPlace',
  'valveOrder',
  'tubes',
  'vessels',
  'sections',
];

/** What an earlier job's sheet gives to a new one, as far as somebody entered it. */
export function carriedFrom(
  entries: readonly SheetEntry[],
  equipment: 'same' | 'other',
): SheetEntry['fields'] {
  const sheet = sheetFromEntries(entries);
  if (equipment === 'other') return gearOn(sheet);
  const isEntered = (field: keyof Sheet) =>
    entries.some(({ fields }) => fields[field] !== undefined);
  const own = OF_EQUIPMENT.filter(isEntered).map((field) => [field, sheet[field]]);
  const volumeM3 = systemVolumeM3(entries);
  // How its valves stood that day is not how they stand now.
  const joins = sheet.joins.map((join) => ({ ...join, state: 'unknown' }));
  return sheetSchema.partial().parse({
    ...gearOn(sheet),
    ...Object.fromEntries(own),
    ...(joins.length === 0 ? {} : { joins }),
    ...(volumeM3 === undefined ? {} : { volumeM3 }),
  });
}

/**
 * The last one that was entered while the sensor saw the system; undefined: none was. While it saw a section or a stub,
 * the volume was that one's.
 */
function systemVolumeM3(entries: readonly SheetEntry[]): Sheet['volumeM3'] | undefined {
  let { sensorSees } = DEFAULT_SHEET;
  let volumeM3: Sheet['volumeM3'] | undefined;
  for (const { fields } of entries) {
    sensorSees = fields.sensorSees ?? sensorSees;
    const isOfSystem = sensorSees === 'system' || sensorSees === 'unknown';
    if (isOfSystem && fields.volumeM3 !== undefined) volumeM3 = fields.volumeM3;
  }
  return volumeM3;
}

/** What was entered of it: nobody has to say it again. */
export function gearOn(sheet: Sheet): SheetEntry['fields'] {
  const nitrogenGauge = { ...sheet.nitrogenGauge, ...NOT_OF_THE_GAUGE };
  const gear = { ...sheet, nitrogenGauge };
  const entered = GEAR.filter(
    (field) => JSON.stringify(gear[field]) !== JSON.stringify(DEFAULT_SHEET[field]),
  );
  return sheetSchema
    .partial()
    .parse(Object.fromEntries(entered.map((field) => [field, gear[field]])));
}

/** The entries that hold for a job: its own. What was said of another one does not hold for it. */
export function entriesOf(job: Job, entries: readonly SheetEntry[]): SheetEntry[] {
  return entries.filter(({ elapsedS }) => isWithin(job, elapsedS));
}

/** The sheet of a job, as it stands after all entries. */
export function sheetOfJob(job: Job, entries: readonly SheetEntry[]): Sheet {
  return sheetFromEntries(entriesOf(job, entries));
}
