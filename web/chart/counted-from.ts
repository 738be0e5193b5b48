/** What the time of a picture is counted from: pure. */
import type { CountedFrom } from '../words/say-cursor.ts';
import type { ChartTime } from '../figure/time-range.ts';

export function countedFrom({ axis, originS }: ChartTime, atS: number): CountedFrom {
  const event = axis === 'linear' ? 'valve_off' : originS > 0 ? 'pump_on' : 'beginning';
  return { sinceS: atS - originS, event };
}
