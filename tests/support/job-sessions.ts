/** A whole job by formula: a pull-down, valved off at its end, and the hold. Same seed, same job. */
import type { Mark } from '../../protocol/mark.ts';
import type { HistoryPoint } from '../../web/analysis/readings/history.ts';
import {
  between,
  holdPressure,
  inventHold,
  inventPullDown,
  inventSensor,
  pullDownPressure,
  readingsOf,
  seeded,
  type HoldClass,
  type InventedSensor,
  type PullDownClass,
} from './invented-curves.ts';

export interface JobSession {
  readonly points: readonly HistoryPoint[];
  readonly marks: readonly Mark[];
  readonly isolatedS: number;
  readonly endS: number;
}

const PULL_DOWNS: readonly PullDownClass[] = ['dry', 'wet', 'floor'];
const HOLDS: readonly HoldClass[] = ['tight', 'moist', 'leaking', 'mixed'];

/** @param change what is different about the sensor; its noise keeps its pattern */
export function jobSession(
  seed: number,
  change: (sensor: InventedSensor) => InventedSensor = (sensor) => sensor,
): JobSession {
  const random = seeded(seed);
  const isolatedS = Math.round(between(random, 200, 1500));
  const heldS = Math.round(between(random, 100, 900));
  const endS = isolatedS + heldS;
  const pulled = pullDownPressure(
    inventPullDown(random, PULL_DOWNS[seed % PULL_DOWNS.length] ?? 'dry'),
    isolatedS,
  );
  const hold = holdPressure({
    ...inventHold(random, HOLDS[seed % HOLDS.length] ?? 'tight'),
    startPa: pulled(isolatedS),
  });
  const sensor = change(inventSensor(random, endS));
  const truePa = (elapsedS: number) =>
    elapsedS < isolatedS ? pulled(elapsedS) : hold(elapsedS - isolatedS);
  return {
    points: readingsOf(truePa, sensor, seeded(seed + 1), 0, endS),
    marks: [markOf(1, 'pump_on', 0), markOf(2, 'isolated', isolatedS)],
    isolatedS,
    endS,
  };
}

function markOf(id: number, kind: Mark['kind'], elapsedS: number): Mark {
  return { id, kind, elapsedS, text: '', madeBy: 'hand' };
}
