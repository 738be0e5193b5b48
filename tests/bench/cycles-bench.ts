/** What evacuations with nitrogen between cost at each judging: no more for those that are over. */
import { History } from '../../web/analysis/readings/history.ts';
import { tripleTold } from '../../web/analysis/cycles/triple-told.ts';
import { manyCycles } from '../support/many-cycles.ts';
import { processorMs, quantile, timings } from './timings.ts';

const FEW = 2;
const MANY = 36;
const TURNS = 60;
const GRID_S = 2;
const ENTRIES = [{ elapsedS: 0, fields: { volumeM3: 0.005 } }];

export function benchCycles() {
  const [fewMs, manyMs] = [medianMs(FEW), medianMs(MANY)];
  return [
    {
      name: `evacuations told at a judging: ${MANY} that are over / ${FEW}, median`,
      ratio: manyMs / fewMs,
      detail: `${fewMs.toFixed(1)} and ${manyMs.toFixed(1)} ms`,
    },
  ];
}

function medianMs(count: number): number {
  const { points, marks, endS } = manyCycles(count);
  const history = new History();
  for (const point of points) history.insert(point);
  const fromS = endS - 1 - TURNS * GRID_S;
  tripleTold(history, marks, ENTRIES, fromS);
  const tookMs = timings(TURNS, processorMs, (turn) => {
    tripleTold(history, marks, ENTRIES, fromS + turn * GRID_S);
  });
  return quantile(tookMs, 0.5);
}
