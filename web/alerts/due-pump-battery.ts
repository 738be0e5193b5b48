/** The pump's battery, where the sheet says how long it lasts: it won't do for the depth. */
import { pumpBattery } from '../analysis/pull-down/pump-battery.ts';
import type { AlertSituation, DueAlerts } from './alert-situation.ts';
import type { GivenAlerts } from './given-alerts.ts';
import { isPumping } from './is-pumping.ts';
import { stand } from './standing.ts';

/** A forecast wavers at first: it has to say so for two minutes. A setting of ours. */
const STANDS_S = 120;
const AWAY_S = 300;
/** With so little left it is said whatever the forecast is: time to walk there. A setting of ours. */
const LAST_S = 5 * 60;

export function duePumpBattery(situation: AlertSituation, given: GivenAlerts): DueAlerts {
  const { conclusions, sheet, marks, opening } = situation;
  const none = { due: [], given, over: [] };
  const battery = pumpBattery(conclusions, marks, sheet);
  if (battery === null) return none;
  const { nowS } = conclusions;
  const { sinceS, leftS, needsS } = battery;
  const isSo = isPumping(conclusions) && (leftS < LAST_S || (needsS !== null && needsS > leftS));
  const atOnce = leftS < LAST_S || (opening && given.pumpBattery.sinceS === null);
  const patience = { standsS: atOnce ? 0 : STANDS_S, awayS: AWAY_S };
  const { standing, dueSinceS } = stand(given.pumpBattery, isSo, nowS, patience);
  return {
    due:
      dueSinceS === null
        ? []
        : [{ kind: 'pump_battery', atS: dueSinceS, sinceS, leftS: Math.max(leftS, 0), needsS }],
    given: standing === given.pumpBattery ? given : { ...given, pumpBattery: standing },
    over: standing.given && isPumping(conclusions) ? [] : ['pump_battery'],
  };
}
