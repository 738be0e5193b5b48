/** A hold as a small curve: what it rose by over its time, all of them on one scale. */
interface RiseCurveProps {
  readonly curve: readonly { readonly heldS: number; readonly pressurePa: number }[];
  readonly mostS: number;
  readonly mostPa: number;
  readonly name: string;
}

const WIDTH = 160;
const HEIGHT = 64;
const EDGE = 3;

export function RiseCurve({ curve, mostS, mostPa, name }: RiseCurveProps) {
  const lowestPa = Math.min(...curve.map(({ pressurePa }) => pressurePa));
  const x = (heldS: number) => EDGE + ((WIDTH - 2 * EDGE) * heldS) / mostS;
  const y = (pressurePa: number) =>
    HEIGHT - EDGE - ((HEIGHT - 2 * EDGE) * (pressurePa - lowestPa)) / mostPa;
  const points = curve
    .map(({ heldS, pressurePa }) => `${x(heldS).toFixed(1)},${y(pressurePa).toFixed(1)}`)
    .join(' ');
  return (
    <svg class="rise-curve" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={name}>
      <line x1={EDGE} y1={HEIGHT - EDGE} x2={WIDTH - EDGE} y2={HEIGHT - EDGE} />
      <polyline points={points} />
    </svg>
  );
}
