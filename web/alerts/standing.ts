/** Whether something has stood long enough to be said, and been away long enough to be said again: pure. */
import { NOT_STANDING, type Standing } from './given-alerts.ts';

interface Patience {
  /** Has to have been so without a break for so long, data time, s. */
  readonly standsS: number;
  /** Has to have been away for so long before it is news again, s. */
  readonly awayS: number;
}

export interface Stood {
  /** The same object where nothing changed. */
  readonly standing: Standing;
  /** Since when it has been so, where that is to be said now. */
  readonly dueSinceS: number | null;
}

export function stand(before: Standing, isSo: boolean, nowS: number, patience: Patience): Stood {
  const none = { standing: before, dueSinceS: null };
  if (isSo) {
    const sinceS = before.sinceS ?? nowS;
    if (before.given) {
      return before.awayS === null ? none : { ...none, standing: { ...before, awayS: null } };
    }
    if (nowS - sinceS >= patience.standsS) {
      return { standing: { sinceS, given: true, awayS: null }, dueSinceS: sinceS };
    }
    return before.sinceS === null ? { ...none, standing: { ...before, sinceS } } : none;
  }
  if (!before.given) {
    return before.sinceS === null ? none : { ...none, standing: NOT_STANDING };
  }
  if (before.awayS === null) return { ...none, standing: { ...before, awayS: nowS } };
  return nowS - before.awayS >= patience.awayS ? { ...none, standing: NOT_STANDING } : none;
}
