/** Which way the pressure goes and how fast, in a few words. */
import { pressureFromPa } from '../../protocol/units.ts';
import type { Conclusions } from '../analysis/conclusions.ts';
import { sayNumber } from './say-number.ts';
import type { Speech } from './speech.ts';

/** Slower than half a per cent a minute can't be told from a sensor's own drift (a setting of ours). */
const STEADY_PER_MINUTE = 0.005;

export type TrendWay = 'falling' | 'rising' | 'steady';

/** Null while nobody knows. */
export function trendWay({ relativeRatePerS, pressurePa }: Conclusions): TrendWay | null {
  if (relativeRatePerS === null || pressurePa === null) return null;
  const perMinute = relativeRatePerS * 60;
  if (Math.abs(perMinute) < STEADY_PER_MINUTE) return 'steady';
  return perMinute < 0 ? 'falling' : 'rising';
}

/** In a rise as pressure a minute, since a leak is linear; otherwise in per cent, as the log axis. */
export function sayTrend(conclusions: Conclusions, speech: Speech): string {
  const words = speech.wording.reading;
  const { perMinute: aMinute } = speech.wording.amounts;
  const { relativeRatePerS, pressurePa } = conclusions;
  const way = trendWay(conclusions);
  if (way === null || relativeRatePerS === null || pressurePa === null) return '';
  if (way === 'steady') return words.trend.steady;
  const perMinute = relativeRatePerS * 60;
  if (conclusions.stage.name === 'rise') {
    const change = pressureFromPa(Math.abs(perMinute) * pressurePa, speech.units.pressure);
    return words.trendRate[way]({ rate: aMinute({ amount: sayNumber(change, speech, 2) }) });
  }
  // Beyond this the pressure halves or doubles within a minute, and per cent mislead.
  if (Math.abs(perMinute) > Math.LN2) return words.trendFast[way];
  const percent = Math.abs(Math.expm1(perMinute)) * 100;
  const amount = `${sayNumber(percent, speech, percent < 10 ? 1 : 2)} %`;
  return words.trendRate[way]({ rate: aMinute({ amount }) });
}
