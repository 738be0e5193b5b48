/** Target, and depth to valve off at: each once a pull-down. Both are *held*, so a spike raises nothing. */
import { isPumping } from './is-pumping.ts';
import type { AlertSituation, DueAlerts } from './alert-situation.ts';
import type { GivenAlerts, GivenDepth } from './given-alerts.ts';

export function dueTarget({ conclusions, sheet }: AlertSituation, given: GivenAlerts): DueAlerts {
  const { targetReachedS, pullDownS } = conclusions;
  const { targetPa } = sheet;
  const none = { due: [], given, over: [] };
  if (targetReachedS === null || !isNews(given.target, pullDownS, targetPa)) return none;
  const sinceS = pullDownS ?? 0;
  return {
    ...none,
    due: [{ kind: 'target', atS: targetReachedS, sinceS, targetPa }],
    given: { ...given, target: { atS: targetReachedS, limitPa: targetPa } },
  };
}

export function dueDepth({ conclusions, sheet }: AlertSituation, given: GivenAlerts): DueAlerts {
  const { isolationDepthReachedS: reachedS, pullDownS } = conclusions;
  const { isolateAtPa, targetPa } = sheet;
  // Valved off, it says to do what has been done.
  const none = { due: [], given, over: isPumping(conclusions) ? [] : (['depth'] as const) };
  if (reachedS === null || !isPumping(conclusions)) return none;
  // What is valved off at above the target is not deep enough yet.
  if (isolateAtPa > targetPa && conclusions.targetReachedS === null) return none;
  if (!isNews(given.depth, pullDownS, isolateAtPa)) return none;
  return {
    ...none,
    due: [{ kind: 'depth', atS: reachedS, sinceS: pullDownS ?? 0, isolateAtPa }],
    given: { ...given, depth: { atS: reachedS, limitPa: isolateAtPa } },
  };
}

/**
 * In another pull-down, or deeper than before. The beginning of a pull-down is refined as the curve
 * grows, but not beyond where its depth was reached.
 */
function isNews(given: GivenDepth | null, pullDownS: number | null, limitPa: number): boolean {
  if (given === null) return true;
  return limitPa < given.limitPa || (pullDownS ?? 0) > given.atS;
}
