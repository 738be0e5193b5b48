/** What the names of levels keep clear of: the present reading, and the watched curve. */
import type { DrawnBox, Obstacle } from '../figure/place-labels.ts';
import { type Drawing, PRESENT_RADIUS, x, y } from './draw-chart.ts';

/** What is kept free around either, CSS px. */
const FREE = 4;
/**
 * The dot lies over the letters, and hides some: worse than to stand on another line (place-labels.ts).
 * The curve lies under them, and its halo is cut out of it.
 */
const ON_PRESENT = 8;
const ON_CURVE = 2;
/** The curve is told in upright pieces of this width: finer tells letters of 16 px nothing more. CSS px. */
const PIECE = 8;

/** @param edge right end of the names, canvas px */
export function nameObstacles(drawing: Drawing, edge: number): Obstacle[] {
  return [
    { boxes: presentBox(drawing, edge), badness: ON_PRESENT },
    { boxes: curveBoxes(drawing, edge), badness: ON_CURVE },
  ];
}

function presentBox({ plot, picture, ratio }: Drawing, edge: number): DrawnBox[] {
  const lastS = picture.series.elapsedS.at(-1);
  const lastPa = picture.series.pressurePa.at(-1);
  if (lastS === undefined || lastPa == null || lastS > picture.time.toS) return [];
  const [across, down] = [x(plot, lastS), y(plot, picture, lastPa)];
  const radius = (PRESENT_RADIUS + FREE) * ratio;
  return [
    {
      inset: edge - across - radius,
      width: 2 * radius,
      top: down - radius,
      bottom: down + radius,
    },
  ];
}

function curveBoxes({ plot, picture, ratio }: Drawing, edge: number): DrawnBox[] {
  const { elapsedS, pressurePa } = picture.series;
  const { left, width } = plot.bbox;
  const free = FREE * ratio;
  const pieces = new Map<number, { top: number; bottom: number }>();
  const reach = (piece: number, down: number) => {
    const known = pieces.get(piece);
    pieces.set(piece, {
      top: Math.min(known?.top ?? Infinity, down),
      bottom: Math.max(known?.bottom ?? -Infinity, down),
    });
  };
  let before: { piece: number; down: number } | null = null;
  for (const [row, atS] of elapsedS.entries()) {
    const pa = pressurePa[row] ?? null;
    const across = pa === null ? null : x(plot, atS);
    if (pa === null || across === null || across < left || across > left + width) {
      before = null;
      continue;
    }
    const piece = Math.floor((across - left) / (PIECE * ratio));
    const down = y(plot, picture, pa);
    // Between two readings further apart runs a line.
    for (let at = before?.piece ?? piece; at < piece; at += 1) {
      const share = before === null ? 1 : (at + 1 - before.piece) / (piece - before.piece);
      const from = before?.down ?? down;
      reach(at, from + (down - from) * share);
      reach(at + 1, from + (down - from) * share);
    }
    reach(piece, down);
    before = { piece, down };
  }
  return [...pieces].map(([piece, { top, bottom }]) => ({
    inset: edge - (left + (piece + 1) * PIECE * ratio),
    width: PIECE * ratio,
    top: top - free,
    bottom: bottom + free,
  }));
}
