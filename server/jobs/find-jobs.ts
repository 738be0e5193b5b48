/** Which cards are wanted, the latest first. Pure. */
import type { JobCard, JobList, JobQuery } from '../../protocol/job-card.ts';

/** What is searched in, made once a card. */
export interface Searchable {
  readonly card: JobCard;
  readonly text: string;
}

export function searchable(card: JobCard): Searchable {
  const { site, equipment, title, sensors, signedBy, startedAtMs } = card;
  const day = localDay(startedAtMs);
  return {
    card,
    text: plain([site, equipment, title, ...sensors, signedBy ?? '', day].join('\n')),
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
    .sort((a, b) => b.startedAtMs - a.startedAtMs || b.recordingId - a.recordingId);
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

/** As the bridge's own clock has it: it runs where the work is done. */
function localDay(ms: number): string {
  const date = new Date(ms);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
