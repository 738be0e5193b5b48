/** What stands with a chart that is saved as a picture: its facts, and the file's name. */
import { sayMoment } from './say-duration.ts';
import { sayUnit } from './say-pressure.ts';
import type { Speech } from './speech.ts';

export interface ExportFacts {
  /** Of the job sheet; empty where nothing was entered. */
  readonly site: string;
  readonly equipment: string;
  /** Where the readings come from, as '#12' in the list of recordings. */
  readonly recordingId: number;
  readonly origin: 'sensor' | 'rehearsal' | 'import' | 'typed_in';
  readonly sensors: readonly string[];
}

/** A stretch of the recording, s, with day and time of day at both ends where they are known. */
interface ExportStretch {
  readonly fromS: number;
  readonly toS: number;
  readonly clock: { readonly from: DayAndTime; readonly to: DayAndTime } | null;
}

interface DayAndTime {
  readonly day: string;
  readonly time: string;
}

/** Two lines above the picture. */
export function sayCaption(facts: ExportFacts, stretch: ExportStretch, speech: Speech): string[] {
  const words = speech.wording.chart.caption;
  const job = [facts.site, facts.equipment].filter((part) => part !== '').join(', ');
  const sensors = facts.sensors.filter((name) => name !== '').join(', ');
  return [
    [words.origins[facts.origin], job].filter((part) => part !== '').join(': '),
    [
      sensors,
      sayWhen(stretch, facts.recordingId, speech),
      words.pressureIn({ unit: sayUnit(speech) }),
    ]
      .filter((part) => part !== '')
      .join(' · '),
  ];
}

function sayWhen(
  { fromS, toS, clock }: ExportStretch,
  recordingId: number,
  { wording }: Speech,
): string {
  if (clock === null) {
    return wording.chart.caption.stretch({
      from: sayMoment(fromS),
      to: sayMoment(toS),
      number: String(recordingId),
    });
  }
  const { from, to } = clock;
  const high = from.day === to.day ? to.time : `${to.day}, ${to.time}`;
  return wording.amounts.fromTo({ low: `${from.day}, ${from.time}`, high });
}

/** At most so many letters of the site in a file's name. */
const MOST_LETTERS = 40;

/** 'quayside-bakery-recording-12-pressure.svg', in every language: of what was entered, the site alone. */
export function sayFileName(
  { site, recordingId, origin }: ExportFacts,
  ending: 'svg' | 'png',
): string {
  const place = site
    .normalize('NFD')
    .toLowerCase()
    .replaceAll(/[\u0300-\u036f]/gu, '')
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .slice(0, MOST_LETTERS)
    .replaceAll(/^-+|-+$/gu, '');
  const kind = origin === 'rehearsal' ? 'rehearsal' : 'recording';
  return [...(place === '' ? [] : [place]), kind, recordingId, `pressure.${ending}`].join('-');
}
