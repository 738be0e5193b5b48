/** Which alerts are due: pure. Each once, and none from a single spike. */
import type { AlertSituation, DueAlerts } from './alert-situation.ts';
import { dueBallast } from './due-ballast.ts';
import { dueDepth, dueTarget } from './due-depths.ts';
import { dueLevelling } from './due-levelling.ts';
import { duePumpBattery } from './due-pump-battery.ts';
import { dueVacuumLoss } from './due-vacuum-loss.ts';
import { dueVerdict } from './due-verdict.ts';
import type { GivenAlerts } from './given-alerts.ts';

type Rule = (situation: AlertSituation, given: GivenAlerts) => DueAlerts;

/** The later ones stand above the earlier ones where several are due at once. */
const RULES: readonly Rule[] = [
  dueLevelling,
  dueTarget,
  duePumpBattery,
  dueBallast,
  dueDepth,
  // Before the verdict: that one is taken back with the vacuum, and says less.
  dueVacuumLoss,
  dueVerdict,
];

export function dueAlerts(situation: AlertSituation, given: GivenAlerts): DueAlerts {
  return RULES.reduce<DueAlerts>(
    (so, rule) => {
      const next = rule(situation, so.given);
      return {
        due: [...so.due, ...next.due],
        given: next.given,
        over: [...so.over, ...next.over],
      };
    },
    { due: [], given, over: [] },
  );
}
