/** Alerts: they name the value that raised them, and when. */
import type { PressureUnit } from '../../protocol/units.ts';
import type { Verdict } from '../analysis/conclusions.ts';
import { sayMoment } from './say-duration.ts';
import { saySetting } from './say-pressure.ts';
import { VERDICT_NAMES } from './say-verdict.ts';

export type AlertFact =
  | { readonly kind: 'target'; readonly atS: number; readonly targetPa: number }
  | { readonly kind: 'verdict'; readonly atS: number; readonly verdict: Verdict };

export interface AlertWords {
  readonly title: string;
  readonly detail: string;
}

export function sayAlert(alert: AlertFact, unit: PressureUnit, rehearsal: boolean): AlertWords {
  const place = `${sayMoment(alert.atS)} into the ${rehearsal ? 'rehearsal' : 'recording'}`;
  if (alert.kind === 'target') {
    return {
      title: `${saySetting(alert.targetPa, unit)} reached`,
      detail: `The pressure went below ${saySetting(alert.targetPa, unit)} and stayed there, ${place}.`,
    };
  }
  return { title: `Verdict: ${VERDICT_NAMES[alert.verdict]}`, detail: `Drawn ${place}.` };
}
