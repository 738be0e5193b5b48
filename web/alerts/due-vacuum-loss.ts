/** While a system that passed is closed up: its vacuum is being lost. */
import type { MarkKind } from '../../protocol/mark.ts';
import type { AlertSituation, DueAlerts } from './alert-situation.ts';
import type { GivenAlerts } from './given-alerts.ts';
import { isPumping } from './is-pumping.ts';

/** Who marks one of these has let something in on purpose, or looks at something else from there on. */
const ON_PURPOSE: readonly MarkKind[] = [
  'reopened',
  'nitrogen_break',
  'sections_shut',
  'sections_opened',
  'stub_shut',
  'stub_opened',
  'cores_out',
];

/** Only after a pass: after any other verdict the next step lets something in. */
export function dueVacuumLoss(situation: AlertSituation, given: GivenAlerts): DueAlerts {
  const { conclusions, marks, lossAfter } = situation;
  if (isPumping(conclusions)) return { due: [], given: forgetPasses(given), over: ['vacuum'] };
  const none = { due: [], given, over: [] };
  // A jump begins the hold anew: the one that passed is not always the present one.
  const hold = given.holds.findLast((one) => one.passedS !== null && !one.lost);
  if (hold === undefined || hold.passedS === null) return none;
  const { passedS } = hold;
  const loss = lossAfter(hold.sinceS, passedS);
  if (loss === null) return none;
  const onPurpose = marks.some(
    ({ kind, elapsedS }) =>
      ON_PURPOSE.includes(kind) && elapsedS >= passedS && elapsedS <= loss.knownS,
  );
  if (onPurpose) return none;
  const { atS, fromPa, toPa } = loss;
  return {
    ...none,
    due: [{ kind: 'vacuum_lost', atS, sinceS: hold.sinceS, fromPa, toPa }],
    given: {
      ...given,
      holds: given.holds.map((one) => (one === hold ? { ...one, lost: true } : one)),
    },
  };
}

/** Once it is pumped on nobody closes up on what passed before. */
function forgetPasses(given: GivenAlerts): GivenAlerts {
  if (given.holds.every(({ passedS }) => passedS === null)) return given;
  return { ...given, holds: given.holds.map((one) => ({ ...one, passedS: null })) };
}
