/** The verdict on a rise: its words, its numbers, and the pass rule beside it. */
import type { Rise, Verdict } from '../analysis/conclusions.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { sayDuration, sayRoughDuration } from './say-duration.ts';
import { sayPressureEstimate, sayRateEstimate, saySetting } from './say-pressure.ts';
import { sayReservation } from './say-reservation.ts';
import type { SaidConclusion } from './said-conclusion.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

export const VERDICT_NAMES: Readonly<Record<Verdict, string>> = {
  tight_dry: 'Tight and dry, for the connected part',
  moisture: 'Moisture, or gas from oil',
  leak: 'Leak: steady inflow',
  leak_and_moisture: 'Leak and moisture',
  undecided: 'Undecided',
};

export function sayVerdict(rise: Rise, sheet: Sheet, units: UnitsOfChoice): SaidConclusion {
  const reservations = rise.reservations.map(sayReservation).join('; ');
  const rule = sayRule(rise, sheet, units);
  const leak = sayRateEstimate(rise.leakPaPerS, units.pressure);
  const moisture = sayPressureEstimate(rise.moisturePa, units.pressure);
  const headline = VERDICT_NAMES[rise.verdict];
  const besides = reservations === '' ? [] : [`${capital(reservations)}.`];
  switch (rise.verdict) {
    case 'tight_dry':
      return {
        tone: 'good',
        headline,
        detail: [`Steady inflow of ${leak}: below what counts as a leak.`, rule, ...besides],
      };
    case 'moisture':
      return {
        tone: 'warning',
        headline,
        detail: [`It gives ${moisture} and levels off.`, rule, ...besides],
      };
    case 'leak':
      return {
        tone: 'warning',
        headline,
        detail: [
          `${leak}: air from outside, or gas past a valve from the charged side.`,
          rule,
          ...besides,
        ],
      };
    case 'leak_and_moisture':
      return {
        tone: 'warning',
        headline,
        detail: [
          `Steady inflow of ${leak}${changeover(rise)}. Moisture gives ${moisture} and levels off.`,
          rule,
          ...besides,
        ],
      };
    case 'undecided':
      return {
        tone: 'calm',
        headline:
          rise.moreS === null ? headline : `${headline}: another ${sayRoughDuration(rise.moreS)}`,
        detail: [...besides, rule].filter((part) => part !== ''),
      };
  }
}

/** The rule is shown beside the physics, not instead of it. */
function sayRule(rise: Rise, sheet: Sheet, units: UnitsOfChoice): string {
  const limit = saySetting(sheet.endLimitPa, units.pressure);
  const after = sayDuration(rise.endOfHold.atS);
  const tense = rise.heldS >= rise.endOfHold.atS ? 'Stood at' : 'Will stand near';
  const end = `${tense} ${sayPressureEstimate(rise.endOfHold, units.pressure)}`;
  return `Rule: at most ${limit} after ${after}. ${end}: ${ruleOutcome(rise.keepsRule)}.`;
}

function ruleOutcome(keepsRule: boolean | null): string {
  if (keepsRule === null) return 'not settled';
  return keepsRule ? 'keeps it' : 'breaks it';
}

function changeover(rise: Rise): string {
  return rise.changeoverS === null ? '' : ` since ${sayDuration(rise.changeoverS)}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
