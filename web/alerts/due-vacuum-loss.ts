/** While a system that passed is closed up: its vacuum is being lost. */
import type { MarkKind } from '../../protocol/mark.ts';
import type { AlertSituation, DueAlerts } from './alert-situation.ts';
import { knownHold } from './due-verdict.ts';
import type { GivenAlerts } from './given-alerts.ts';
import { isPumping } from './is-pumping.ts';

/** Who marks one of these has let something in on purpose, or looks at something else from there on. */
const ON_PURPOSE: readonly MarkKind[] = [
  'reopened',
  'nitrogen_break',
  'sections_opened',
  'stub_shut',
  'stub_opened',
  'cores_out',
];

/** Only after a pass: after any other verdict the next step lets something in. */
export function dueVacuumLoss(situation: AlertSituation, given: GivenAlerts): DueAlerts {
  const { conclusions, marks, lossAfter } = situation;
  const none = { due: [], given, over: isPumping(conclusions) ? (['vacuum'] as const) : [] };
  const isolatedS = conclusions.rise?.sinceS ?? conclusions.holds.at(-1)?.fromS ?? null;
  if (isolatedS === null || isPumping(conclusions)) return none;
  const hold = knownHold(given, isolatedS);
  if (hold?.passedS === undefined || hold.passedS === null || hold.lost) return none;
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
