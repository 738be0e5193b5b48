/** A job in a list: what it was, where, and what came of it. */
import type { JobCard } from '../../protocol/job-card.ts';
import { DEFAULT_SHEET, type Sheet, type SheetEntry } from '../../protocol/sheet.ts';
import { sayRehearsalTitle } from './say-rehearsal.ts';
import { sayRoughDuration } from './say-duration.ts';
import type { Speech } from './speech.ts';

/** Site and equipment; where neither was entered, what is known of it. */
export function sayJobPlace(card: JobCard, speech: Speech): string {
  const { site, equipment, origin, title, sensors } = card;
  const words = speech.wording.recordings;
  const entered = [site, equipment].filter((text) => text !== '');
  if (entered.length > 0) return entered.join(', ');
  switch (origin) {
    case 'sensor':
      return [words.job, ...sensors].join(', ');
    case 'rehearsal':
      return sayRehearsalTitle(title, speech);
    case 'import':
      return words.imported({ title });
    case 'typed_in':
      return words.jobTypedIn;
  }
}

/** One for each sensor where they differ. */
export function sayJobOutcome({ outcomes, running }: JobCard, { wording }: Speech): string {
  const { jobs, verdict } = wording;
  if (outcomes === null) return running ? jobs.running : jobs.notJudged;
  const said = new Set(
    outcomes.map((outcome) =>
      outcome.verdict === null ? jobs.noHold : verdict.names[outcome.verdict],
    ),
  );
  const outcome = said.size === 0 ? jobs.noHold : [...said].join('; ');
  return running ? jobs.soFar({ outcome }) : outcome;
}

/** What else there is to say of it, each a few words. */
export function sayJobNotes(card: JobCard, { wording }: Speech): string[] {
  const words = wording.jobs;
  // Where a site was entered, the title no longer says it.
  const isTitled = card.origin === 'rehearsal' && card.site === '' && card.equipment === '';
  const lastedS = card.lastS === null ? 0 : card.lastS - card.fromS;
  return [
    ...(card.simulated && !isTitled ? [words.rehearsal] : []),
    ...(lastedS > 0 ? [sayRoughDuration(lastedS)] : []),
    ...(card.signedBy === null ? [] : [words.signedBy({ name: card.signedBy })]),
    ...(card.archived ? [words.archived] : []),
  ];
}

/** Which entries of the job before hold for the new one as well. */
export function sayCarriedAlong(gear: SheetEntry['fields'], speech: Speech): string {
  const { newJob, sheet } = speech.wording;
  const names = Object.keys(gear).flatMap((field) =>
    isSheetField(field) ? [sheet.names[field]] : [],
  );
  return names.length === 0 ? newJob.nothingCarried : newJob.carried({ what: names.join(', ') });
}

/** The same of a prepared sheet, which may begin with more. */
export function sayCarriedFields(fields: SheetEntry['fields'], speech: Speech): string {
  const { prepared, sheet } = speech.wording;
  const names = Object.keys(fields).flatMap((field) =>
    isSheetField(field) ? [sheet.names[field]] : [],
  );
  return names.length === 0
    ? prepared.nothingCarried
    : prepared.carried({ what: names.join(', ') });
}

/** Of a prepared sheet that was taken over; empty where all of it was. */
export function sayLeftOut(fields: SheetEntry['fields'], speech: Speech): string {
  const { prepared, sheet } = speech.wording;
  const names = Object.keys(fields).flatMap((field) =>
    isSheetField(field) ? [sheet.names[field]] : [],
  );
  return names.length === 0 ? '' : prepared.leftOut({ what: names.join(', ') });
}

function isSheetField(field: string): field is keyof Sheet {
  return field in DEFAULT_SHEET;
}
