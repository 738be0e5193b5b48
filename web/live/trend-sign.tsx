/**
 * Which way the pressure goes, as a chart of the sea draws its streams: a plain arrow for the ebb, a
 * feathered one for the flood, level water between the two. Told apart by shape and by direction.
 */
import type { TrendWay } from '../words/say-trend.ts';

const STROKES: Readonly<Record<TrendWay, readonly string[]>> = {
  falling: ['M8 8 40 40', 'M40 18 V40 H18'],
  rising: ['M7 41 40 8', 'M20 8 H40 V28', 'M13 35 4 26', 'M22 26 13 17'],
  steady: ['M6 18 q9 -8 18 0 t18 0', 'M6 32 q9 -8 18 0 t18 0'],
};

export function TrendSign({ way }: { readonly way: TrendWay }) {
  return (
    <svg class="trend-sign" viewBox="0 0 48 48" aria-hidden="true" data-way={way}>
      {STROKES[way].map((stroke) => (
        <path key={stroke} d={stroke} />
      ))}
    </svg>
  );
}
