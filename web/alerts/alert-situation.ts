/** What alerts follow from, and what comes of looking at it once. */
import type { Mark } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Conclusions } from '../analysis/conclusions.ts';
import type { VacuumLoss } from '../analysis/closing/vacuum-loss.ts';
import type { AlertFact } from '../words/alert-fact.ts';
import type { GivenAlerts } from './given-alerts.ts';

export interface AlertSituation {
  readonly conclusions: Conclusions;
  readonly sheet: Sheet;
  readonly marks: readonly Mark[];
  /** Whether the vacuum of a hold was lost after it had been judged. */
  readonly lossAfter: (isolatedS: number, judgedS: number) => VacuumLoss | null;
  /**
   * The page looks for the first time: what stands now has stood for nobody knows how long, and is
   * said as it is.
   */
  readonly opening: boolean;
}

/** What an alert is about: one takes the place of another about the same. */
export type About =
  | 'depth'
  | 'target'
  | 'ballast'
  | 'pump_battery'
  | 'verdict'
  | 'vacuum'
  | 'sensor'
  | 'battery'
  | 'device'
  | 'bridge';

export interface DueAlerts {
  readonly due: readonly AlertFact[];
  /** The same object as before where nothing changed. */
  readonly given: GivenAlerts;
  /** What is no longer so: an alert about it that still stands there would mislead. */
  readonly over: readonly About[];
}
