/** What is being looked for among the jobs, and what was found so far. It outlives the panel. */
import { effect, signal, untracked } from '@preact/signals';
import type { JobCard, JobList, JobQuery } from '../../protocol/job-card.ts';
import { listJobs } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';

const PAGE = 50;
/** A person types letter after letter: asked is what stands there for so long, ms. */
const SETTLED_MS = 200;

interface Wanted extends Pick<JobQuery, 'search' | 'archived'> {
  /** Null: any, and none. */
  readonly verdict: Exclude<JobQuery['verdict'], undefined> | null;
}

export const wanted = signal<Wanted>({ search: '', verdict: null, archived: 'no' });
export const found = signal<JobList | null>(null);

/** What was just done with one of them; empty: nothing yet. Whoever did it is led there. */
export const done = signal('');

export function sayDone(text: string): void {
  done.value = text;
  document.getElementById(DONE_ID)?.focus();
}

/** Of the line that says it. */
export const DONE_ID = 'job-done';

/** The latest question: an answer to an earlier one comes too late. */
let asked = 0;

/** Looks anew, as far as one had leafed. */
export async function lookAgain(): Promise<void> {
  await look(0, Math.max(PAGE, found.peek()?.jobs.length ?? 0));
}

/** The next page, below what is shown. */
export async function lookFurther(): Promise<void> {
  await look(found.peek()?.jobs.length ?? 0, PAGE);
}

/** Looks as soon as something else is wanted. @returns ends that */
export function keepLooking(): () => void {
  return effect(() => {
    // Only what is wanted counts here, not what comes of it.
    const first = wanted.value;
    const timer = window.setTimeout(() => {
      if (first === wanted.peek()) untracked(() => void look(0, PAGE));
    }, SETTLED_MS);
    return () => window.clearTimeout(timer);
  });
}

async function look(skip: number, limit: number): Promise<void> {
  asked += 1;
  const mine = asked;
  const { verdict, ...others } = wanted.peek();
  const by = verdict === null ? {} : { verdict };
  const answer = await tell(listJobs({ ...others, ...by, skip, limit }));
  if (answer === null || mine !== asked) return;
  const before: readonly JobCard[] = skip === 0 ? [] : (found.peek()?.jobs ?? []);
  found.value = { ...answer, jobs: [...before, ...answer.jobs] };
}
