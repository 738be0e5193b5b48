/** The one check that tells the likely causes of a stall apart, with what each outcome means. */
import type { Cause } from '../analysis/conclusions.ts';

export interface TellingCheck {
  readonly todo: string;
  /** What is seen, and what it means. */
  readonly outcomes: readonly string[];
  /** Where the work can hurt; empty where it can't. */
  readonly caution: string;
}

const BALLAST: TellingCheck = {
  todo: 'Close the gas ballast, and mark it.',
  outcomes: ['Falls within a minute: that was it.', 'Does not move: one of the others.'],
  caution: '',
};
const WARM: TellingCheck = {
  todo: 'Warm the coldest metal for five minutes, pump on.',
  outcomes: [
    'Rises, then falls below where it was: water.',
    'Rises and stays up: walls and oil; go on pumping.',
    'Does not move: pump, oil or leak. Blank the pump off at its inlet next.',
  ],
  caution: 'Warm air or warm cloths, never a flame; crankcase heat only by the maker’s rule.',
};
const VALVE_OFF: TellingCheck = {
  todo: 'Valve the system off at the pump for two minutes, the sensor on the system’s side.',
  outcomes: [
    'Rises in a straight line: a leak.',
    'Rises and bends over: moisture, or gas from oil.',
    'Hardly rises: the pump or its oil has come to its own floor. Blank it off and see how deep it goes.',
  ],
  caution: 'Close the valve before the pump stops, or oil is drawn back. Pump and oil are hot.',
};

/**
 * @param causes those that are worth a check, the likeliest first
 * @returns null where there is but one, or nothing that a check tells apart
 */
export function tellingCheck(causes: readonly Cause[]): TellingCheck | null {
  const has = (...some: Cause[]) => some.some((cause) => causes.includes(cause));
  const stalling = causes.filter((cause) => cause !== 'gas');
  if (stalling.length < 2 || has('rising', 'sensor')) return null;
  if (has('ballast')) return BALLAST;
  if (has('boil_off')) return WARM;
  return has('floor', 'wet_oil') ? VALVE_OFF : null;
}
