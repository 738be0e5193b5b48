/** The water that a pull-down took away, or why that is not known. */
import type { WaterFound } from '../analysis/water-found.ts';
import { sayBetween } from './say-between.ts';
import { sayMoment } from './say-duration.ts';
import { sayMagnitude } from './say-magnitude.ts';
import { sayPressure } from './say-pressure.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

const WHOLE_NUMBERS_FROM = 0.01;

/** 'about 1.3 g, between 0.62 and 2.8'. */
export function sayWaterRemoved(found: WaterFound): string {
  switch (found.kind) {
    case 'no_plateau':
      return 'no plateau of boiling water that has ended';
    case 'no_speed':
      return found.volumeKnown
        ? 'not known: the curve before the plateau does not show the pumping speed → enter pump and hose, under Rig'
        : 'not known: volume missing → enter it in the job sheet (or pump and hose, under Rig)';
    case 'grams':
      return found.grams.high < WHOLE_NUMBERS_FROM
        ? 'less than 0.01 g'
        : sayBetween(found.grams, sayMagnitude, 'g');
  }
}

/** Where it was seen and what it rests on; empty where there is nothing. */
export function sayWaterConditions(found: WaterFound, units: UnitsOfChoice): string {
  if (found.kind === 'no_plateau') return '';
  const { fromS, toS, pressurePa } = found.plateau;
  const place = `Water boiled from ${sayMoment(fromS)} to ${sayMoment(toS)} into the recording, near ${sayPressure(pressurePa, units.pressure)}.`;
  if (found.kind === 'no_speed') return place;
  const speed =
    found.speedFrom === 'curve'
      ? 'The pumping speed is from the fall before it and the volume entered'
      : 'The pumping speed is from pump and hose as entered';
  return `${place} ${speed}; what left before and after it is not counted.`;
}
