/** What comes of the file as it is chosen to be read: worked out in pieces, so that the page lives. */
import { useEffect, useState } from 'preact/hooks';
import { type Choice, type Guess, isWhole } from './choice.ts';
import { Found } from './found.ts';
import { readRows } from './read-rows.ts';

/** Rows between two turns of the page: some ten milliseconds. */
const ROWS_AT_ONCE = 5000;

/** Null while it is being worked out, or while there is nothing to read by. */
export function useFound(text: string, guess: Guess, choice: Choice): Found | null {
  const [found, setFound] = useState<Found | null>(null);
  useEffect(() => {
    setFound(null);
    if (!isWhole(choice)) return undefined;
    const rows = readRows(text, choice, guess);
    const gathered = new Found();
    let timer: number | undefined;
    const goOn = () => {
      for (let taken = 0; taken < ROWS_AT_ONCE; taken += 1) {
        const next = rows.next();
        if (next.done === true) {
          setFound(gathered);
          return;
        }
        gathered.take(next.value);
      }
      timer = window.setTimeout(goOn, 0);
    };
    goOn();
    return () => window.clearTimeout(timer);
  }, [text, guess, choice]);
  return found;
}
