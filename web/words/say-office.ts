/** That the office of several vans is not reached: nothing is lost, and nothing is to be done here. */
import type { OfficeState } from '../../protocol/office-state.ts';
import { sayCount } from './say-number.ts';
import type { Speech } from './speech.ts';

/**
 * @param since its moment, as the page writes it
 * @returns null where there is nothing to say
 */
export function sayOffice(
  office: OfficeState,
  since: (ms: number) => string,
  speech: Speech,
): string | null {
  if (office.kind !== 'unreached') return null;
  const waiting = sayCount(office.waiting, speech);
  return speech.wording.office.unreached({ since: since(office.sinceMs), waiting });
}
