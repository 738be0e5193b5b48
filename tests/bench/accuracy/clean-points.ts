/** A hold as the sensor would show it without noise, steps and gaps, each second. */
import type { HistoryPoint } from '../../../web/analysis/readings/history.ts';
import type { RiseTrial } from './trials.ts';

/** What came before the isolation stays as it was read. */
export function cleanPoints(
  { points, shownAt, isolatedS }: RiseTrial,
  lengthS: number,
): HistoryPoint[] {
  const temperatureC = points.find((point) => point.temperatureC !== null)?.temperatureC ?? null;
  const before = points.filter(({ elapsedS }) => elapsedS < isolatedS);
  const since = Array.from({ length: Math.floor(lengthS) + 1 }, (_, second) => ({
    elapsedS: isolatedS + second,
    pressurePa: shownAt(isolatedS + second),
    condition: 'ok' as const,
    temperatureC,
  }));
  return [...before, ...since];
}
