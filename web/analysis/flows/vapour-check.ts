/** Whether water alone can stand as high as the gauge shows. */
import { waterVapourPressurePa } from '../../../protocol/water.ts';

/**
 * `below`: it can. `near`: it stands about where water of this temperature comes to rest, as far as
 * gauges tell. `above`: there is something else as well.
 */
export interface VapourCheck {
  readonly metalC: number;
  /** Of water (or ice) at the metal's temperature. */
  readonly vapourPa: number;
  readonly standsPa: number;
  readonly outcome: 'below' | 'near' | 'above';
}

/** Thermal gauges read water vapour wrongly by tens of per cent: this much to either side. From memory. */
const GAUGE_FACTOR = 1.5;

export function vapourCheck(metalC: number, standsPa: number): VapourCheck {
  const vapourPa = waterVapourPressurePa(metalC);
  const ratio = standsPa / vapourPa;
  const outcome = ratio > GAUGE_FACTOR ? 'above' : ratio < 1 / GAUGE_FACTOR ? 'below' : 'near';
  return { metalC, vapourPa, standsPa, outcome };
}
