/** Which alerts are due: pure. Each once per recording, and none from a single spike. */
import { z } from 'zod';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Conclusions } from '../analysis/conclusions.ts';
import type { AlertFact } from '../words/say-alert.ts';

/** What was already said for a recording, as this browser remembers it. */
export const givenAlertsSchema = z.object({
  target: z.boolean(),
  /** The isolations (data time) on which a verdict was announced. */
  verdictsSinceS: z.array(z.number()),
});
export type GivenAlerts = z.infer<typeof givenAlertsSchema>;

export const NO_ALERTS_GIVEN: GivenAlerts = { target: false, verdictsSinceS: [] };

/** The moment of an isolation is refined as the curve grows; closer than this it is the same one. */
const SAME_ISOLATION_S = 120;

export interface DueAlerts {
  readonly due: readonly AlertFact[];
  readonly given: GivenAlerts;
}

/** `targetReachedS` is reached *and held*, so a spike raises nothing. */
export function dueAlerts(conclusions: Conclusions, sheet: Sheet, given: GivenAlerts): DueAlerts {
  const due: AlertFact[] = [];
  const { targetReachedS, rise } = conclusions;
  if (targetReachedS !== null && !given.target) {
    due.push({ kind: 'target', atS: targetReachedS, targetPa: sheet.targetPa });
  }
  const announced =
    rise !== null &&
    given.verdictsSinceS.some((sinceS) => Math.abs(sinceS - rise.sinceS) < SAME_ISOLATION_S);
  const ready = rise !== null && rise.verdict !== 'undecided' && !announced;
  if (ready) due.push({ kind: 'verdict', atS: conclusions.nowS, verdict: rise.verdict });
  return {
    due,
    given: {
      target: given.target || targetReachedS !== null,
      verdictsSinceS: ready ? [...given.verdictsSinceS, rise.sinceS] : given.verdictsSinceS,
    },
  };
}
