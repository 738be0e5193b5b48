/** Which cards are wanted, the latest first. Pure. */
import { LANGUAGES } from '../../protocol/languages.ts';
import type { JobCard, JobList, JobQuery } from '../../protocol/job-card.ts';

/** What is searched in, made once a card. */
export interface Searchable {
  readonly card: JobCard;
  readonly text: string;
}

export function searchable(card: JobCard): Searchable {
  const { site, equipment, title, sensors, signedBy, startedAtMs, simulated } = card;
  const days = localDays(startedAtMs);
  const kind = simulated ? 'rehearsal ensayo' : '';
  return {
    card,
    text: plain([site, equipment, title, ...sensors, signedBy ?? '', kind, ...days].join('\n')),
  };
}

/** @param all in any order */
export function findJobs(all: readonly Searchable[], query: JobQuery): JobList {
  const words = plain(query.search)
    .split(/\s+/u)
    .filter((word) => word !== '');
  const found = all
    .filter(({ card, text }) => isWanted(card, query) && words.every((word) => text.includes(word)))
    .map(({ card }) => card)
    .sort(byBegin);
  return {
    jobs: found.slice(query.skip, query.skip + query.limit),
    found: found.length,
    notJudged: all.filter(({ card }) => card.outcomes === null && !card.running).length,
  };
}

function isWanted(
  card: JobCard,
  { verdict, origin, fromMs, untilMs, archived }: JobQuery,
): boolean {
  if (archived !== 'all' && card.archived !== (archived === 'yes')) return false;
  if (origin !== undefined && card.origin !== origin) return false;
  if (fromMs !== undefined && card.startedAtMs < fromMs) return false;
  if (untilMs !== undefined && card.startedAtMs >= untilMs) return false;
  if (verdict === undefined) return true;
  if (card.outcomes === null) return false;
  const verdicts = card.outcomes.flatMap((outcome) => outcome.verdict ?? []);
  return verdict === 'no_hold' ? verdicts.length === 0 : verdicts.includes(verdict);
}

/** Capitals and accents make no difference to whoever searches. */
function plain(text: string): string {
  return text.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();
}

/** As people write it, by the bridge's own clock: it runs where the work is done. */
function localDays(ms: number): string[] {
  const date = new Date(ms);
  const two = (value: number) => String(value).padStart(2, '0');
  const [year, month, day] = [date.getFullYear(), two(date.getMonth() + 1), two(date.getDate())];
  const named = LANGUAGES.map((language) =>
    date.toLocaleDateString(language, { day: 'numeric', month: 'short', year: 'numeric' }),
  );
  return [
    `${year}-${month}-${day}`,
    `${day}.${month}.${year}`,
    `${day}/${month}/${year}`,
    `${month}/${day}/${year}`,
    ...named,
  ];
}

function byBegin(a: JobCard, b: JobCard): number {
  return b.startedAtMs - a.startedAtMs || b.recordingId - a.recordingId || b.fromS - a.fromS;
}
