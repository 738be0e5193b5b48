/** Batteries of sensors and of this device: low, said once until they have been charged. Pure. */
import type { AlertFact } from '../words/alert-fact.ts';

/** Common practice, no source; the top line shows it as low from here on too. */
const LOW_PERCENT = 15;
/** Charged or changed it is news again: far enough off that a reading to and fro is none. A setting of ours. */
const CHARGED_PERCENT = 30;

/** Which have been said to be low: by channel, and 'device'. */
export type LowSaid = readonly string[];

export interface Battery {
  readonly of: string;
  /** Null: nobody can say, or it is being charged. */
  readonly percent: number | null;
  readonly fact: (percent: number) => AlertFact;
}

export interface DueBatteries {
  readonly due: readonly AlertFact[];
  /** The same list where nothing changed. */
  readonly said: LowSaid;
}

export function dueBattery({ of, percent, fact }: Battery, said: LowSaid): DueBatteries {
  if (percent === null) return { due: [], said };
  const isSaid = said.includes(of);
  if (percent >= CHARGED_PERCENT && isSaid) {
    return { due: [], said: said.filter((one) => one !== of) };
  }
  if (percent >= LOW_PERCENT || isSaid) return { due: [], said };
  return { due: [fact(percent)], said: [...said, of] };
}
