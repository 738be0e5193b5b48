/** Why there is no verdict yet, or why it is not a pass. */
import type { Reservation } from '../analysis/conclusions.ts';

export function sayReservation(reservation: Reservation): string {
  switch (reservation) {
    case 'too_early':
      return 'the curve does not tell leak and moisture apart yet';
    case 'between_limits':
      return 'the result lies so close to a limit that it could be either side';
    case 'falling':
      return 'the pressure falls: a valve lets gas through to the pump, or the sensor sits on the pump’s side';
    case 'evening_out':
      return 'the pressure fell at first, while it evened out along the lines: it needs longer at rest';
    case 'isolation_unsure':
      return 'by its curve the pump may still be pulling: mark the valve-off, or open and close the valve';
    case 'not_water_alone':
      return 'it stands above the vapour pressure of water at the metal’s temperature: not water alone';
    case 'ice_possible':
      return 'the coldest metal may be so cold that ice would hide there';
    case 'not_the_system':
      return 'the sensor does not see the system: change what it sees on the job sheet';
    case 'step':
      return 'a step in the curve, as when a ball valve lets trapped air go: the hold starts anew';
    case 'gap':
      return 'too many readings are missing';
  }
}
