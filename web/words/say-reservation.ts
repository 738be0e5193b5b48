/** Why there is no verdict yet, or why it is not a pass. */
import type { Reservation } from '../analysis/conclusions.ts';
import type { Speech } from './speech.ts';

export function sayReservation(reservation: Reservation, { wording }: Speech): string {
  return wording.reservations[reservation];
}
