/** The curve as a table of some ten rows: pure. */
import { sayCountedTime, sayCursor } from '../words/say-cursor.ts';
import { sayBoilingTick } from '../words/say-chart.ts';
import type { ChartPicture } from './chart-picture.ts';
import { countedFrom } from './counted-from.ts';
import { cursorAt } from './cursor-at.ts';

export interface TableRow {
  readonly atS: number;
  /** '3:05': from what on, the column's heading says. */
  readonly time: string;
  readonly pressure: string;
  /** Where water boils; empty where no pressure is known. */
  readonly boils: string;
  /** Of each other sensor, in the order of the picture. */
  readonly beside: readonly string[];
}

const ROWS = 11;
/** A row shows what a pixel of a picture of this width would. */
const PIXELS = 800;

/** At equal steps over what was measured of the stretch that is shown. */
export function tableRows(picture: ChartPicture): TableRow[] {
  const { source, time, speech } = picture;
  const { readings } = source;
  if (readings.length === 0) return [];
  const fromS = Math.max(time.fromS, readings.elapsedS(0));
  const toS = Math.min(time.toS, readings.elapsedS(readings.length - 1));
  if (toS < fromS) return [];
  const rows = toS === fromS ? 1 : ROWS;
  return Array.from({ length: rows }, (_, row) => {
    const askedS = rows === 1 ? fromS : fromS + ((toS - fromS) * row) / (rows - 1);
    const facts = cursorAt(picture, askedS, (time.toS - time.fromS) / PIXELS);
    const from = countedFrom(time, askedS);
    const words = sayCursor(facts, from, speech);
    const { pressurePa } = facts.watched;
    return {
      atS: askedS,
      time: sayCountedTime(from.sinceS),
      pressure: words.pressure,
      boils:
        pressurePa === null ? '' : sayBoilingTick((pressurePa.low + pressurePa.high) / 2, speech),
      beside: words.besideValues,
    };
  });
}
