/** Readings as no sensor should send them, and as some day one will. */
import fc from 'fast-check';
import type { HistoryPoint } from '../../web/analysis/readings/history.ts';

/** A share of a whole, in hundredths. */
export const anyShare = fc.integer({ min: 0, max: 100 }).map((percent) => percent / 100);

/** What may happen to one reading in a hundred, or to all from some moment on. */
type Harm = (point: HistoryPoint) => readonly HistoryPoint[];
const withPressure =
  (pressurePa: number | null): Harm =>
  (point) => [{ ...point, pressurePa }];
const HARMS: readonly Harm[] = [
  (point) => [point],
  () => [],
  withPressure(0),
  withPressure(-50),
  withPressure(Number.MAX_VALUE),
  withPressure(Number.MIN_VALUE),
  withPressure(null),
  withPressure(Number.NaN),
  withPressure(Infinity),
  (point) => [point, point, { ...point, pressurePa: (point.pressurePa ?? 1) * 3 }],
  (point) => [{ ...point, temperatureC: Number.NaN }],
  (point) => [{ ...point, elapsedS: Number.NaN }, point],
  (point) => [{ ...point, elapsedS: -point.elapsedS }],
  (point) => [{ ...point, condition: 'fault' }],
  (point) => [{ ...point, condition: 'under_range', pressurePa: null }],
  (point) => [{ ...point, condition: 'over_range', pressurePa: null }],
  (point) => [{ ...point, elapsedS: Math.floor(point.elapsedS) }],
  (point) => [{ ...point, elapsedS: point.elapsedS * 1e6 }],
];
export const anyHarm = fc.record({
  kind: fc.nat({ max: HARMS.length - 1 }),
  every: fc.constantFrom(1, 3, 17, 100),
  from: anyShare,
});

/** The readings after one harm has befallen them after the other. */
export function harmed(
  points: readonly HistoryPoint[],
  harms: readonly { kind: number; every: number; from: number }[],
): HistoryPoint[] {
  let list = [...points];
  for (const { kind, every, from } of harms) {
    const harm = HARMS[kind];
    const first = from * list.length;
    list = list.flatMap((point, i) =>
      harm !== undefined && i >= first && i % every === 0 ? harm(point) : [point],
    );
  }
  return list;
}
