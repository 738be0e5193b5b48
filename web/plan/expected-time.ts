/**
 * How long it should take, with the range that the volume leaves, and whether the pump's battery lasts so long. Pure.
 * On one rig the time goes with the volume: dP/dt = −S(P)/V · P, and the hoses' own volume hardly counts.
 */
import type { Sheet } from '../../protocol/sheet.ts';
import { connectedVolume } from './connected-volume.ts';
import { type ExpectedCurve, timeToS } from './expected-pull-down.ts';
import type { RigFacts } from './internal-volume.ts';

/** As shares of the volume that is reckoned with. */
interface VolumeSpread {
  readonly low: number;
  readonly high: number;
}

/** A volume is guessed to a quarter at best. Ours. */
const GUESSED: VolumeSpread = { low: 0.75, high: 1.25 };
/** So near to what lines and vessels come to, it is that figure, taken over. */
const SAME = 0.02;

export function volumeSpread({
  volumeM3,
  ...facts
}: Pick<Sheet, 'volumeM3'> & RigFacts): VolumeSpread {
  const reckoned = connectedVolume(facts).sure.volume;
  if (volumeM3 === null || reckoned === null) return GUESSED;
  const { lowM3, estimateM3, highM3 } = reckoned;
  if (Math.abs(estimateM3 / volumeM3 - 1) > SAME) return GUESSED;
  return { low: lowM3 / estimateM3, high: highM3 / estimateM3 };
}

export interface ExpectedTime {
  readonly lowS: number;
  readonly estimateS: number;
  readonly highS: number;
}

/** Null where the curve never comes down to it, or only after hours. */
export function expectedTime(
  curve: ExpectedCurve,
  pressurePa: number,
  { low, high }: VolumeSpread,
): ExpectedTime | null {
  const estimateS = timeToS(curve, pressurePa);
  if (estimateS === null) return null;
  return { lowS: low * estimateS, estimateS, highS: high * estimateS };
}

export type BatteryAnswer = 'enough' | 'close' | 'not_enough';

/** A system in use has water to give off, and needs more than this: so `enough` asks for twice the time. */
const WATER_FACTOR = 2;

export function batteryFor({ lowS, highS }: ExpectedTime, batteryS: number): BatteryAnswer {
  if (batteryS < lowS) return 'not_enough';
  return batteryS < WATER_FACTOR * highS ? 'close' : 'enough';
}
