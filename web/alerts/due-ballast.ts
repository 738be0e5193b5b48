/** The gas ballast stands open where it should be closed: said once each time that it was opened. */
import type { Mark, MarkKind } from '../../protocol/mark.ts';
import { nextStep } from '../steps/next-step.ts';
import type { AlertSituation, DueAlerts } from './alert-situation.ts';
import { type GivenAlerts, NOT_STANDING } from './given-alerts.ts';
import { isPumping } from './is-pumping.ts';
import { stand } from './standing.ts';

/** Who is about to close it anyway needs no alert. A setting of ours. */
const STANDS_S = 45;
/** As long as a forecast may need to make up its mind again about a ballast. A setting of ours. */
const AWAY_S = 600;

/** Where nobody knows whether the pump has one, the next step asks for it and no alert calls. */
export function dueBallast(situation: AlertSituation, given: GivenAlerts): DueAlerts {
  const { conclusions, sheet, marks, opening } = situation;
  const step = nextStep(conclusions, sheet, marks);
  const isSo = step.kind === 'close_ballast' && step.known;
  const patience = {
    standsS: opening && given.ballast.sinceS === null ? 0 : STANDS_S,
    awayS: AWAY_S,
  };
  const openedS = latestS(marks, 'ballast_opened');
  const known = given.ballast;
  const before = known.given && openedS > (known.sinceS ?? openedS) ? NOT_STANDING : known;
  const { standing, dueSinceS } = stand(before, isSo, conclusions.nowS, patience);
  const isClosed = latestS(marks, 'ballast_closed') >= openedS || !isPumping(conclusions);
  return {
    due:
      dueSinceS === null
        ? []
        : [
            {
              kind: 'ballast_open',
              atS: dueSinceS,
              sinceS: Math.max(openedS, conclusions.pullDownS ?? 0),
            },
          ],
    given: standing === given.ballast ? given : { ...given, ballast: standing },
    over: !isSo && (isClosed || !standing.given) ? ['ballast'] : [],
  };
}

/** Data time of the latest mark of a kind, or 0. */
function latestS(marks: readonly Mark[], wanted: MarkKind): number {
  return marks.reduce(
    (last, { kind, elapsedS }) => (kind === wanted ? Math.max(last, elapsedS) : last),
    0,
  );
}
