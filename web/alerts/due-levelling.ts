/** The curve levels off above the target: said once it has stood, and no more than once a state of the rig. */
import { nextStep } from '../steps/next-step.ts';
import type { AlertSituation, DueAlerts } from './alert-situation.ts';
import { type GivenAlerts, NOT_STANDING } from './given-alerts.ts';
import { isPumping } from './is-pumping.ts';
import { stand } from './standing.ts';

/** Two minutes: the forecast itself doesn't flap, and nobody is late by that. A setting of ours. */
const STANDS_S = 120;
/** Away for so long it was another time. A setting of ours. */
const AWAY_S = 300;

export function dueLevelling(situation: AlertSituation, given: GivenAlerts): DueAlerts {
  const { conclusions, sheet, marks, opening } = situation;
  const { forecast, nowS, pullDownS } = conclusions;
  const step = nextStep(conclusions, sheet, marks);
  const isSo =
    forecast?.outcome === 'levels_off' &&
    // An open ballast is a floor of its own, and is said for itself.
    !(step.kind === 'close_ballast' && step.known);
  const patience = {
    standsS: opening && given.levelling.sinceS === null ? 0 : STANDS_S,
    awayS: AWAY_S,
  };
  // Valved off, or opened: whatever comes after that is another pull-down.
  const isOver = !isPumping(conclusions);
  const before = isOver ? NOT_STANDING : given.levelling;
  const { standing, dueSinceS } = stand(before, isSo, nowS, patience);
  return {
    due:
      dueSinceS === null
        ? []
        : [
            {
              kind: 'levels_off',
              atS: dueSinceS,
              sinceS: forecast?.sinceS ?? pullDownS ?? 0,
              targetPa: sheet.targetPa,
              floorPa: forecast?.floorPa?.estimate ?? null,
            },
          ],
    given: standing === given.levelling ? given : { ...given, levelling: standing },
    over: standing.given || conclusions.targetReachedS !== null ? [] : ['target'],
  };
}
