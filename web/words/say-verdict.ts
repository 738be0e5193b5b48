/** The verdict on a rise: what makes it, and where it goes. The pass rule stands beside it. */
import type { Rise } from '../analysis/conclusions.ts';
import { sayDuration, sayRoughDuration } from './say-duration.ts';
import { sayPressureEstimate, sayShortRate } from './say-pressure.ts';
import { sayReservation } from './say-reservation.ts';
import type { SaidConclusion } from './said-conclusion.ts';
import type { Speech } from './speech.ts';

export function sayVerdict(rise: Rise, speech: Speech): SaidConclusion {
  const words = speech.wording.verdict;
  const reservations = rise.reservations.map((one) => sayReservation(one, speech)).join('; ');
  const end = sayEnd(rise, speech);
  const rate = sayShortRate(rise.leakPaPerS, speech);
  const moisture = sayPressureEstimate(rise.moisturePa, speech);
  const headline = words.names[rise.verdict];
  // Only holds that repeat each other tell a leak from what is given off as evenly.
  const oneHold = rise.earlierHolds === 0 ? [words.inOneHold] : [];
  const besides = reservations === '' ? [] : [`${capital(reservations)}.`];
  switch (rise.verdict) {
    case 'tight_dry':
      return {
        tone: 'good',
        headline,
        sure: words.inflow({ rate }),
        detail: [words.belowLeak, end, ...besides],
      };
    case 'moisture':
      return {
        tone: 'warning',
        headline,
        sure: words.levellingOff({ amount: moisture }),
        detail: [end, ...besides],
      };
    case 'leak':
      return {
        tone: 'warning',
        headline,
        sure: rate,
        detail: [words.leakFrom, end, ...oneHold, ...besides],
      };
    case 'leak_and_moisture':
      return {
        tone: 'warning',
        headline,
        sure: words.inflow({ rate }),
        detail: [sayBoth(rise, moisture, speech), end, ...oneHold, ...besides],
      };
    case 'undecided':
      return {
        tone: 'calm',
        headline:
          rise.moreS === null
            ? headline
            : words.undecidedMore({ more: sayRoughDuration(rise.moreS) }),
        sure: rise.curve.length === 0 ? '' : words.inflow({ rate }),
        detail: [...besides, end].filter((part) => part !== ''),
      };
  }
}

/** Empty before there is a fit. */
function sayEnd({ endOfHold, heldS, curve }: Rise, speech: Speech): string {
  if (curve.length === 0) return '';
  const { stood, willStand } = speech.wording.verdict;
  const pressure = sayPressureEstimate(endOfHold, speech);
  const length = sayDuration(endOfHold.atS);
  return heldS >= endOfHold.atS ? stood({ pressure, length }) : willStand({ pressure, length });
}

function sayBoth({ changeoverS }: Rise, moisture: string, { wording }: Speech): string {
  const { both, bothSince } = wording.verdict;
  if (changeoverS === null) return both({ moisture });
  return bothSince({ moisture, since: sayDuration(changeoverS) });
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
