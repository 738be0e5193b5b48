/** Pressure of vapour over water at rest, liquid or frozen, whichever is stable. */
import {
  iceVapourPressurePa,
  liquidVapourPressurePa,
  TRIPLE_POINT_K,
} from '../../protocol/water.ts';

/** Pa. Water is taken to be ice as soon as it is colder than the triple point. */
export function waterVapourPressurePa(temperatureK: number): number {
  return temperatureK < TRIPLE_POINT_K
    ? iceVapourPressurePa(temperatureK)
    : liquidVapourPressurePa(temperatureK);
}
