/** What the report says of facts and conclusions, as far as the screens don't have the words. */
import type { Reading } from '../../protocol/reading.ts';
import type { Mark } from '../../protocol/mark.ts';
import { isSimulated } from '../../protocol/recording.ts';
import type { Origin, Recording } from '../../protocol/recording.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Rise, Stage, StageName } from '../analysis/conclusions.ts';
import type { Gap } from '../analysis/gap-finder.ts';
import { REPORT_WORDS } from './report-words.ts';
import type { SaidConclusion } from './said-conclusion.ts';
import { sayDuration, sayMoment, sayRoughDuration } from './say-duration.ts';
import { MARK_NAMES } from './say-mark.ts';
import { sayNumber } from './say-number.ts';
import { saySetting } from './say-pressure.ts';
import { sayRehearsalTitle } from './say-reveal.ts';
import { sayVerdict, VERDICT_NAMES } from './say-verdict.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

/** What kind of recording it is, and, in front of all else, what it can't be passed off as. */
export function sayOrigin({ origin, title }: Recording): { name: string; statement: string } {
  switch (origin) {
    case 'sensor':
      return { name: 'A sensor, by radio', statement: '' };
    case 'rehearsal':
      return {
        name: sayRehearsalTitle(title),
        statement:
          'A rehearsal on a simulated system. No real equipment was measured; this is no evidence of any job.',
      };
    case 'import':
      return {
        name: 'A file',
        statement: `Read in from the file “${title}”. This program did not hear them from a sensor and can’t vouch for them; the file does not say when it began.`,
      };
    case 'typed_in':
      return {
        name: 'Typed in',
        statement:
          'Read off a gauge and typed in by hand. This program did not hear them from a sensor and can’t vouch for them.',
      };
  }
}

/**
 * Whether the wall clock at the beginning says when a later reading was measured: a file has none, and
 * a rehearsal's time goes as fast as one likes.
 */
export function knowsWallTime(origin: Origin): boolean {
  return origin === 'sensor' || origin === 'typed_in';
}

/** What happened at the beginning's wall-clock time. */
export function sayBegan(origin: Origin): string {
  return origin === 'import' ? REPORT_WORDS.readIn : REPORT_WORDS.began;
}

/** While it is still growing. */
export function sayProvisional(judgedAtS: number): string {
  return `Still being recorded. This is how it stood ${sayMoment(judgedAtS)} into it; the verdict may change.`;
}

/** For paper: an open question is as much a result as a verdict, and what was foreseen is named so. */
export function sayReportVerdict(
  rise: Rise,
  sheet: Sheet,
  units: UnitsOfChoice,
  open: boolean,
): SaidConclusion {
  const said = sayVerdict(rise, units);
  const undecided = rise.verdict === 'undecided';
  return {
    tone: said.tone,
    headline: undecided
      ? `${VERDICT_NAMES.undecided}: neither passed nor failed`
      : VERDICT_NAMES[rise.verdict],
    sure: said.sure,
    detail: [
      ...said.detail,
      ...(undecided && rise.moreS !== null ? [sayMore(rise.moreS, open)] : []),
      ...(rise.heldS < rise.endOfHold.atS ? [sayForeseen(rise)] : []),
      ...(sheet.sensorSees === 'unknown' ? [VIEW_NOT_ENTERED] : []),
    ],
  };
}

const VIEW_NOT_ENTERED =
  'Nobody entered what the sensor saw: this holds for whatever was connected to it, and no more.';

function sayMore(moreS: number, open: boolean): string {
  const more = sayRoughDuration(moreS);
  return open ? `Another ${more} may settle it.` : `Another ${more} of hold might have settled it.`;
}

function sayForeseen(rise: Rise): string {
  const held = sayDuration(rise.heldS);
  const whole = sayDuration(rise.endOfHold.atS);
  return `Held for ${held} of ${whole}: where it would end is foreseen from the curve, not measured.`;
}

/** What became of the system after the hold, where that limits the verdict; empty where it does not. */
export function sayAfterHold(stage: StageName): string {
  return stage === 'pull_down' || stage === 'at_depth'
    ? 'After this hold the system was pumped again: what came then is not covered by it.'
    : '';
}

/** Where there is no hold to judge. */
export function sayNoHold(
  targetReachedS: number | null,
  sheet: Sheet,
  units: UnitsOfChoice,
): SaidConclusion {
  const target = saySetting(sheet.targetPa, units.pressure);
  return {
    tone: 'calm',
    headline: 'No verdict: no hold was recorded',
    sure: '',
    detail: [
      'Neither a mark nor the curve shows that the system was valved off. A pull-down alone proves neither that it is tight nor that it is dry.',
      targetReachedS === null
        ? `${target}, the target, was not reached and held.`
        : `${target}, the target, was reached and held, ${sayMoment(targetReachedS)} into the recording.`,
    ],
  };
}

export function sayNoReadings(): SaidConclusion {
  return {
    tone: 'calm',
    headline: 'No verdict: there are no readings',
    sure: '',
    detail: [],
  };
}

const CONDITION_COUNTS: Readonly<Record<Reading['condition'], string>> = {
  ok: 'measured',
  over_range: 'above the sensor’s range',
  under_range: 'below the sensor’s range',
  warming_up: 'while the sensor warmed up',
  fault: 'reported as a fault',
};

/** '5402: 5092 measured, 310 above the sensor’s range'. */
export function sayReadingCount(counts: ReadonlyMap<Reading['condition'], number>): string {
  const all = [...counts.values()].reduce((sum, count) => sum + count, 0);
  const parts = [...counts].map(([condition, count]) => `${count} ${CONDITION_COUNTS[condition]}`);
  return parts.length === 0 ? '0' : `${all}: ${parts.join(', ')}`;
}

export function sayGap({ missing, restarted }: Gap): string {
  if (restarted) return 'the sensor started anew';
  if (missing === null || missing === 0) return 'silence';
  return missing === 1 ? '1 reading missing' : `${missing} readings missing`;
}

/** Those that the table has no room for. */
export function sayFurtherGaps(count: number, lengthS: number, uncounted: number): string {
  const beyond = uncounted > 0 ? `, and ${uncounted} whose lengths were not kept` : '';
  return `${count} shorter ones besides, ${sayDuration(lengthS)} together${beyond}.`;
}

export function sayRecognised({ recognisedBy }: Stage): string {
  return recognisedBy === 'mark' ? 'a mark' : 'the curve';
}

export const MARK_AUTHOR_NAMES: Readonly<Record<Mark['madeBy'], string>> = {
  hand: 'hand',
  rehearsal: 'the rehearsal',
  import: 'the file',
};

export function sayDrawnBy(softwareVersion: string): string {
  return `Conclusions drawn by Ebbline ${softwareVersion} from the facts of the recording.`;
}

export function sayHoldTitle(number: number, of: number): string {
  return of === 1 ? REPORT_WORDS.holdCurve : `Hold ${number} of ${of}`;
}

/** With its remark whole: paper has room for it. */
export function sayMarkInFull({ kind, text }: Mark): string {
  return text === '' ? MARK_NAMES[kind] : `${MARK_NAMES[kind]}: ${text}`;
}

/** Where there are several sensors: whose it is. */
export function saySensorHeading(heading: string, name: string, number: number): string {
  return `${heading}, sensor ${number}${name === '' ? '' : ` (${name})`}`;
}

/** The name of the document, and of the file that it is printed to. */
export function sayReportName(recording: Recording, site: string): string {
  const { id } = recording;
  const kind = isSimulated(recording) ? 'Rehearsal' : 'Report';
  return site.trim() === '' ? `${kind} ${id}` : `${kind} ${id}, ${site}`;
}

/** To a tenth of a second where it is short, since readings come several a second. */
export function sayGapLength(lengthS: number): string {
  return lengthS < 10 ? `${sayNumber(lengthS, 2)} s` : sayDuration(lengthS);
}
