/**
 * Frees a design of the grid of time constants.
 *
 * What levels off with a time constant between two of the grid leaves a small bend that no shape of it
 * makes, and only a leak or one release more could. So each release of the best fit may lie anywhere
 * within its cell: the shape's change with ln τ is worked out, with the deviation of an even
 * distribution over the cell, width/√12, times the release's amount.
 */
import { releasesUsed } from './releases-used.ts';
import type { Design } from './rise-design.ts';

export function freedOfGrid(design: Design): Design {
  let freed = design;
  for (const { place, amountPa } of releasesUsed(design, true)) {
    if (place <= 1 || place >= design.size - 1) continue;
    // Central difference over two cells: the shape's change over one is half of it.
    const direction = new Float64Array(design.size);
    const halfPa = amountPa / Math.sqrt(12) / 2;
    direction[place - 1] = -halfPa;
    direction[place + 1] = halfPa;
    freed = workedOut(freed, direction);
  }
  return freed;
}

/** Integrates over a multiple of one direction, normal about zero with deviation 1. */
function workedOut(design: Design, direction: Float64Array): Design {
  const { size } = design;
  const pull = Float64Array.from({ length: size }, (_, i) => {
    let sum = 0;
    for (let j = 0; j < size; j += 1) {
      sum += (design.gram[i * size + j] ?? 0) * (direction[j] ?? 0);
    }
    return sum;
  });
  const pivot = 1 + direction.reduce((sum, value, i) => sum + value * (pull[i] ?? 0), 0);
  const moment = direction.reduce((sum, value, i) => sum + value * (design.moments[i] ?? 0), 0);
  // Given the coefficients, the multiple is (moment − pull·coefficients)/pivot ± 1/√pivot.
  const start = direction.reduce((sum, value, i) => sum + value * (design.startPer[i] ?? 0), 0);
  const end = direction.reduce((sum, value, i) => sum + value * (design.endPerAmount[i] ?? 0), 0);
  return {
    ...design,
    startOffsetPa: design.startOffsetPa + (start * moment) / pivot,
    startPer: design.startPer.map((value, i) => value - (start * (pull[i] ?? 0)) / pivot),
    endOffsetPa: design.endOffsetPa + (end * moment) / pivot,
    endPerAmount: design.endPerAmount.map((value, i) => value - (end * (pull[i] ?? 0)) / pivot),
    endVariance: design.endVariance + (end * end) / pivot,
    gram: design.gram.map(
      (value, at) => value - ((pull[Math.floor(at / size)] ?? 0) * (pull[at % size] ?? 0)) / pivot,
    ),
    moments: design.moments.map((value, i) => value - ((pull[i] ?? 0) * moment) / pivot),
    total: Math.max(design.total - (moment * moment) / pivot, 0),
    logDeterminant: design.logDeterminant + Math.log(pivot),
  };
}
