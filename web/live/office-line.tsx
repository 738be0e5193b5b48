/** A quiet line where the office of several vans is not reached: the work here goes on all the same. */
import { clockWords } from '../parts/clock-words.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { sayOffice } from '../words/say-office.ts';

export function OfficeLine({ session }: { readonly session: Session }) {
  // Of a bridge that is not heard nobody knows what it reaches.
  if (session.connection.value.phase !== 'live') return null;
  const since = (ms: number) => clockWords(ms, speech.value);
  const words = sayOffice(session.office.value, since, speech.value);
  if (words === null) return null;
  return (
    <p class="elsewhere" role="status" data-testid="office-state">
      {words}
    </p>
  );
}
