/** What a pull-down tells of the water that it took away. */
import type { Sheet } from '../../../protocol/sheet.ts';
import type { Estimate } from '../conclusions.ts';
import type { History } from '../readings/history.ts';
import { boilOff, type BoilOff } from './boil-off.ts';
import { speedOnPlateauM3PerS } from './pumping-speed.ts';
import { rigSpeedM3PerS } from './rig-speed.ts';
import { waterRemovedG } from './water-removed.ts';

/** `no_plateau`: none that is over. `no_speed`: neither the curve nor the job sheet tells the speed. */
export type WaterFound =
  | { readonly kind: 'no_plateau' }
  | { readonly kind: 'no_speed'; readonly plateau: BoilOff; readonly volumeKnown: boolean }
  | {
      readonly kind: 'grams';
      readonly plateau: BoilOff;
      readonly grams: Estimate;
      readonly speedFrom: 'curve' | 'rig';
    };

export interface PullDownSpan {
  /** Pump on. */
  readonly fromS: number;
  /** Valved off, or the present. */
  readonly toS: number;
}

export function waterFound(history: History, pulled: PullDownSpan, sheet: Sheet): WaterFound {
  const plateau = boilOff(history, pulled);
  if (plateau === null) return { kind: 'no_plateau' };
  const { volumeM3, metalTemperatureC } = sheet;
  const seen =
    volumeM3 === null
      ? null
      : speedOnPlateauM3PerS(history, pulled.fromS, plateau, volumeM3, metalTemperatureC);
  const speed = seen ?? rigSpeedM3PerS(sheet, plateau.pressurePa);
  const grams = waterRemovedG(plateau, speed, metalTemperatureC);
  if (grams === null) return { kind: 'no_speed', plateau, volumeKnown: volumeM3 !== null };
  return { kind: 'grams', plateau, grams, speedFrom: seen === null ? 'rig' : 'curve' };
}
