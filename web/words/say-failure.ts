/** What a person asked of the bridge and did not get, and what to do about it. */
import type { RehearsalAction } from '../../protocol/api.ts';
import { type Language, LANGUAGE_NAMES } from '../../protocol/languages.ts';
import type { ProblemCode } from '../../protocol/problems.ts';
import { sayUnchanged } from './say-action.ts';
import type { Speech } from './speech.ts';

export interface Failure {
  /** Which problem the bridge named; or that it did not answer, or not so that one understands it. */
  readonly code: ProblemCode | 'unreachable' | 'not_understood' | 'language_missing';
  /** What exactly failed and where, as the bridge has it: a line, a field, a name. */
  readonly detail: string;
  /** What was done to a simulated rig, where that changed nothing. */
  readonly action?: RehearsalAction;
}

/** What is missing is a language; it is named in itself, as where it was chosen. */
export function withoutLanguage(language: Language): Failure {
  return { code: 'language_missing', detail: LANGUAGE_NAMES[language] };
}

export function sayFailure({ code, detail, action }: Failure, speech: Speech): string {
  const { connection, problems } = speech.wording;
  if (code === 'unreachable') return connection.unreachable;
  if (code === 'not_understood') return connection.notUnderstood;
  if (code === 'language_missing') return connection.languageMissing({ language: detail });
  if (code === 'no_effect' && action !== undefined) return sayUnchanged(action, speech);
  const { meaning, remedy } = problems[code];
  return detail === '' ? `${meaning} ${remedy}` : `${meaning} (${detail}) ${remedy}`;
}
