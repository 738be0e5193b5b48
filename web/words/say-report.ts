/** What the report says of facts and conclusions, as far as the screens don't have the words. */
import type { Reading } from '../../protocol/reading.ts';
import type { Job } from '../../protocol/job.ts';
import type { Mark } from '../../protocol/mark.ts';
import { isSimulated } from '../../protocol/recording.ts';
import type { Origin, Recording } from '../../protocol/recording.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Rise, Stage, StageName } from '../analysis/conclusions.ts';
import type { Gap } from '../analysis/readings/gap-finder.ts';
import type { SaidConclusion } from './said-conclusion.ts';
import { sayDuration, sayMoment, sayRoughDuration } from './say-duration.ts';
import { sayNumber } from './say-number.ts';
import { saySetting } from './say-pressure.ts';
import { sayRehearsalTitle } from './say-rehearsal.ts';
import { sayWallTime } from './say-wall-time.ts';
import { sayVerdict } from './say-verdict.ts';
import type { Speech } from './speech.ts';

/** What kind of recording it is, and, in front of all else, what it can't be passed off as. */
export function sayOrigin(
  { origin, title, takenFrom }: Recording,
  speech: Speech,
): { name: string; statement: string } {
  const words = speech.wording.report.origins;
  if (takenFrom?.origin === 'rehearsal')
    return { name: words.import.name, statement: words.rehearsal };
  switch (origin) {
    case 'sensor':
      return words.sensor;
    case 'rehearsal':
      return { name: sayRehearsalTitle(title, speech), statement: words.rehearsal };
    case 'import':
      return { name: words.import.name, statement: words.import.statement({ title }) };
    case 'typed_in':
      return words.typed_in;
  }
}

/** What happened at the beginning's wall-clock time. */
export function sayBegan(origin: Origin, { wording }: Speech): string {
  return origin === 'import' ? wording.report.readIn : wording.report.began;
}

/** While it is still growing. */
export function sayProvisional(judgedAtS: number, { wording }: Speech): string {
  return wording.report.provisional({ at: sayMoment(judgedAtS) });
}

/** For paper: an open question is as much a result as a verdict, and what was foreseen is named so. */
export function sayReportVerdict(
  rise: Rise,
  sheet: Sheet,
  speech: Speech,
  open: boolean,
): SaidConclusion {
  const { report, verdict } = speech.wording;
  const said = sayVerdict(rise, speech);
  const undecided = rise.verdict === 'undecided';
  return {
    tone: said.tone,
    headline: undecided ? report.undecided : verdict.names[rise.verdict],
    sure: said.sure,
    detail: [
      ...said.detail,
      ...(undecided && rise.moreS !== null ? [sayMore(rise.moreS, open, speech)] : []),
      ...(rise.heldS < rise.endOfHold.atS ? [sayForeseen(rise, speech)] : []),
      ...(sheet.sensorSees === 'unknown' ? [report.viewNotEntered] : []),
    ],
  };
}

function sayMore(moreS: number, open: boolean, { wording }: Speech): string {
  const more = sayRoughDuration(moreS);
  return open ? wording.report.mayStillSettle({ more }) : wording.report.mightHaveSettled({ more });
}

function sayForeseen(rise: Rise, { wording }: Speech): string {
  const held = sayDuration(rise.heldS);
  return wording.report.foreseen({ held, whole: sayDuration(rise.endOfHold.atS) });
}

/** What became of the system after the hold, where that limits the verdict; empty where it does not. */
export function sayAfterHold(stage: StageName, { wording }: Speech): string {
  return stage === 'pull_down' || stage === 'at_depth' ? wording.report.pumpedAfter : '';
}

/** Where there is no hold to judge. */
export function sayNoHold(
  targetReachedS: number | null,
  sheet: Sheet,
  speech: Speech,
): SaidConclusion {
  const words = speech.wording.report;
  const target = saySetting(sheet.targetPa, speech);
  return {
    tone: 'calm',
    headline: words.noHold,
    sure: '',
    detail: [
      words.noHoldWhy,
      targetReachedS === null
        ? words.targetNotReached({ target })
        : words.targetReached({ target, at: sayMoment(targetReachedS) }),
    ],
  };
}

export function sayNoReadings({ wording }: Speech): SaidConclusion {
  return { tone: 'calm', headline: wording.report.noReadings, sure: '', detail: [] };
}

/** '5402: 5092 measured, 310 above the sensor’s range'. */
export function sayReadingCount(
  counts: ReadonlyMap<Reading['condition'], number>,
  { wording }: Speech,
): string {
  const all = [...counts.values()].reduce((sum, count) => sum + count, 0);
  const parts = [...counts].map(([condition, count]) =>
    wording.report.counts[condition]({ count: String(count) }),
  );
  return parts.length === 0 ? '0' : `${all}: ${parts.join(', ')}`;
}

export function sayGap({ missing, restarted }: Gap, { wording }: Speech): string {
  if (restarted) return wording.report.restarted;
  if (missing === null || missing === 0) return wording.report.silence;
  return wording.report.missing({ count: missing });
}

/** Those that the table has no room for. */
export function sayFurtherGaps(
  shorter: number,
  lengthS: number,
  notKept: number,
  { wording }: Speech,
): string {
  const words = wording.report;
  const [count, length, uncounted] = [String(shorter), sayDuration(lengthS), String(notKept)];
  return notKept > 0
    ? words.furtherGapsUncounted({ count, length, uncounted })
    : words.furtherGaps({ count, length });
}

export function sayRecognised({ recognisedBy }: Stage, { wording }: Speech): string {
  return recognisedBy === 'mark' ? wording.report.byMark : wording.report.byCurve;
}

export function sayHoldTitle(number: number, of: number, { wording }: Speech): string {
  const words = wording.report;
  return of === 1 ? words.holdCurve : words.holdOf({ number: String(number), of: String(of) });
}

/** With its remark whole: paper has room for it. */
export function sayMarkInFull({ kind, text }: Mark, { wording }: Speech): string {
  const name = wording.marks.names[kind];
  return text === '' ? name : `${name}: ${text}`;
}

/** Where there are several sensors: whose it is. */
export function saySensorHeading(
  heading: string,
  name: string,
  at: number,
  { wording }: Speech,
): string {
  const number = String(at);
  return name === ''
    ? wording.report.ofSensor({ heading, number })
    : wording.report.ofSensorNamed({ heading, number, name });
}

/** The name of the document, and of the file that it is printed to. */
export function sayReportName(recording: Recording, site: string, { wording }: Speech): string {
  const number = String(recording.id);
  const words = wording.report;
  const name = isSimulated(recording) ? words.rehearsalName({ number }) : words.name({ number });
  return site.trim() === '' ? name : `${name}, ${site}`;
}

/** To a tenth of a second where it is short, since readings come several a second. */
export function sayGapLength(lengthS: number, speech: Speech): string {
  return lengthS < 10 ? `${sayNumber(lengthS, speech, 2)} s` : sayDuration(lengthS);
}

/** Its number, and which part of it the report is of. */
export function sayRecordingNumber({ id }: Recording, job: Job, { wording }: Speech): string {
  const number = String(id);
  return job.fromS === 0 ? number : wording.report.jobOf({ number, at: sayDuration(job.fromS) });
}

/** Empty where it was recorded here. */
export function sayTakenFrom(
  { takenFrom }: Recording,
  offsetMinutes: number,
  speech: Speech,
): string {
  if (takenFrom === null) return '';
  const { recordingId, startedAtMs, softwareVersion: software, held } = takenFrom;
  const words = speech.wording.report;
  // Of all that it was, plain CSV says that it was a rehearsal.
  if (recordingId === 0) return words.rehearsedByFile;
  const at = sayWallTime(startedAtMs, offsetMinutes, speech);
  const from = words.takenFrom({ number: String(recordingId), at, software });
  return `${from} ${held ? words.heldThere : words.notHeldThere}`;
}
