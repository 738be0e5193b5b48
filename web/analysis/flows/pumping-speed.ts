/**
 * The effective pumping speed at the system, from how fast free gas left it: the pressure then falls at the
 * rate k = S/V.
 */
import { waterVapourPressurePa } from '../../../protocol/water.ts';
import type { Estimate } from '../conclusions.ts';
import type { History } from '../readings/history.ts';
import { samplesFromBins } from '../readings/samples.ts';
import type { BoilOff } from './boil-off.ts';
import { fallRatePerS } from './fall-rate.ts';
import { USUAL_TEMPERATURE_C } from './leak-rate.ts';

/**
 * Only above what water boils at can the fall be free gas alone; by this factor, since gauges err. Far
 * above, the speed is another: settings of ours.
 */
const CLEAR_OF_WATER = 1.2;
const TOP_OVER_BOTTOM = 8;
/** On the way off the plateau, as parts of its pressure: from, to. The last water slows that fall. */
const OFF = [0.75, 0.2] as const;
/** It is looked for so long after it. A setting of ours. */
const FALL_S = 900;

/**
 * S on the plateau for air, m³/s, from the fall before water boiled; null where the sensor saw nothing of
 * it (many see no more than 20 Torr, 2666 Pa, and water boils at 2339 Pa where it has 20 °C).
 *
 * Down to the plateau a wide hose keeps its speed, and a long thin one in viscous flow loses it as the
 * pressure falls (Poiseuille): hence a wide interval, of which the fall off the plateau may lift the end.
 */
export function speedOnPlateauM3PerS(
  history: History,
  pumpOnS: number,
  plateau: BoilOff,
  volumeM3: number,
  metalTemperatureC: number | null,
): Estimate | null {
  const bottomPa = CLEAR_OF_WATER * waterVapourPressurePa(metalTemperatureC ?? USUAL_TEMPERATURE_C);
  const topPa = TOP_OVER_BOTTOM * bottomPa;
  const free = fallBetween(history, topPa, bottomPa, pumpOnS, plateau.fromS);
  if (free === null) return null;
  const { pressurePa, toS } = plateau;
  const off = fallBetween(history, OFF[0] * pressurePa, OFF[1] * pressurePa, toS, toS + FALL_S);
  const slowest = (free.low * pressurePa) / Math.sqrt(topPa * bottomPa);
  const low = Math.min(Math.max(slowest, off?.low ?? 0), free.low);
  return {
    estimate: Math.sqrt(low * free.high) * volumeM3,
    low: low * volumeM3,
    high: free.high * volumeM3,
  };
}

/** k from the last moment above one pressure to the first below another. */
function fallBetween(
  history: History,
  fromPa: number,
  toPa: number,
  earliestS: number,
  latestS: number,
): Estimate | null {
  const samples = samplesFromBins(history.bins(earliestS, latestS));
  const below = samples.findIndex(({ pressurePa }) => pressurePa < toPa);
  const until = below === -1 ? samples : samples.slice(0, below);
  const above = until.findLastIndex(({ pressurePa }) => pressurePa > fromPa);
  return fallRatePerS(until.slice(above + 1));
}
