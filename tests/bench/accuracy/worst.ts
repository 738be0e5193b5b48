/** The cases to look at first. */
import type { LineWithFacts } from './lines.ts';
import { isDecided, isRight } from './right-verdict.ts';

/** As JSON, one a line: forecasts by their error, then rises that were decided wrongly. */
export function worst(lines: readonly LineWithFacts[], count: number): string[] {
  const forecasts = lines
    .filter((line) => line.what === 'forecast')
    .map((line) => ({ line, off: line.p50S === null ? 1 : Math.abs(line.p50S / line.trueS - 1) }))
    .sort((a, b) => b.off - a.off)
    .map(({ line }) => line);
  const rises = lines.filter(
    (line) =>
      line.what === 'rise' &&
      isDecided(line.verdict) &&
      !isRight(line.kind, line.trueLeakPaPerS, line.verdict, 'leak_named'),
  );
  return [...forecasts.slice(0, count), ...rises.slice(0, count)].map((line) =>
    JSON.stringify(line),
  );
}
