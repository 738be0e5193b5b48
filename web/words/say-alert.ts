/** Alerts: they name the value that raised them, and when. */
import type { PressureUnit } from '../../protocol/units.ts';
import type { Verdict } from '../analysis/conclusions.ts';
import { sayMoment } from './say-duration.ts';
import { saySetting } from './say-pressure.ts';
import { VERDICT_NAMES } from './say-verdict.ts';

export type AlertFact =
  | { readonly kind: 'target'; readonly atS: number; readonly targetPa: number }
  | { readonly kind: 'verdict'; readonly atS: number; readonly verdict: Verdict }
  /** Another verdict on the same hold; `before` is null where it is not known which it was. */
  | {
      readonly kind: 'verdict_changed';
      readonly atS: number;
      readonly verdict: Verdict;
      readonly before: Verdict | null;
    };

export interface AlertWords {
  readonly title: string;
  readonly detail: string;
}

export function sayAlert(alert: AlertFact, unit: PressureUnit, rehearsal: boolean): AlertWords {
  const place = `${sayMoment(alert.atS)} into the ${rehearsal ? 'rehearsal' : 'recording'}`;
  switch (alert.kind) {
    case 'target':
      return {
        title: `${saySetting(alert.targetPa, unit)} reached`,
        detail: `The pressure went below ${saySetting(alert.targetPa, unit)} and stayed there, ${place}.`,
      };
    case 'verdict':
      return { title: `Verdict: ${VERDICT_NAMES[alert.verdict]}`, detail: `Drawn ${place}.` };
    case 'verdict_changed':
      return sayChange(alert.verdict, alert.before, place);
  }
}

function sayChange(verdict: Verdict, before: Verdict | null, place: string): AlertWords {
  return {
    title:
      verdict === 'undecided'
        ? 'The verdict no longer stands: undecided'
        : `Verdict now: ${VERDICT_NAMES[verdict]}`,
    detail: `Since ${place}.${sayBefore(before)}`,
  };
}

function sayBefore(before: Verdict | null): string {
  if (before === null) return '';
  if (before === 'tight_dry') return ' It was tight and dry: do not close up on it.';
  return ` Before: ${VERDICT_NAMES[before]}.`;
}
