/** Pressures and their rates in the unit of choice. */
import { pressureFromPa } from '../../protocol/units.ts';
import type { Estimate } from '../analysis/conclusions.ts';
import { sayBetween } from './say-between.ts';
import { sayNumber } from './say-number.ts';
import type { Speech } from './speech.ts';

/** The unit by itself: 'micron'. */
export function sayUnit({ wording, units }: Speech): string {
  return wording.amounts.units[units.pressure];
}

/** A number that is written out, with its unit. */
export function withUnit(digits: string, { wording, units }: Speech): string {
  const { amounts } = wording;
  const name = digits === '1' ? amounts.unitOfOne : amounts.units;
  return `${digits} ${name[units.pressure]}`;
}

/** With its unit: '612 micron'. */
export function sayPressure(pressurePa: number, speech: Speech): string {
  return withUnit(pressureDigits(pressurePa, speech), speech);
}

/** Without its unit: '612'. Never below zero: absolute pressure has no such values. */
export function pressureDigits(pressurePa: number, speech: Speech): string {
  return sayNumber(pressureFromPa(Math.max(0, pressurePa), speech.units.pressure), speech);
}

/** A figure that somebody set: '5 micron', and not '5.00 micron' as if it had been measured. */
export function saySetting(pressurePa: number, speech: Speech): string {
  return withUnit(settingDigits(pressurePa, speech), speech);
}

/** The same of a rate: '5 micron a minute' from Pa/s. */
export function saySettingPerMinute(paPerS: number, speech: Speech): string {
  return speech.wording.amounts.perMinute({ amount: saySetting(paPerS * 60, speech) });
}

export function settingDigits(pressurePa: number, speech: Speech): string {
  const digits = pressureDigits(pressurePa, speech);
  const [whole = '', fraction] = digits.split(speech.decimalMark);
  if (fraction === undefined) return digits;
  const kept = fraction.replace(/0+$/u, '');
  return kept === '' ? whole : `${whole}${speech.decimalMark}${kept}`;
}

/** '38 (34 to 42) micron', two digits: an estimate deserves no more. */
export function sayPressureEstimate(pressurePa: Estimate, speech: Speech): string {
  return withUnit(estimateDigits(pressurePa, speech), speech);
}

/** 'between 700 and 765 micron'. */
export function sayPressureEnds(estimate: Estimate, speech: Speech): string {
  const digits = (pa: number) => estimateNumber(pressureFromPa(pa, speech.units.pressure), speech);
  const [low, high] = [digits(estimate.low), digits(estimate.high)];
  return low === high
    ? withUnit(high, speech)
    : speech.wording.amounts.between({ low, high: withUnit(high, speech) });
}

/** '38 (34 to 42) micron a minute' from Pa/s. */
export function sayRateEstimate(paPerS: Estimate, speech: Speech): string {
  const amount = withUnit(estimateDigits(perMinute(paPerS), speech), speech);
  return speech.wording.amounts.perMinute({ amount });
}

/** The same in few letters, for reading from afar: '38 (34 to 42) micron/min'. */
export function sayShortRate(paPerS: Estimate, speech: Speech): string {
  return `${withUnit(estimateDigits(perMinute(paPerS), speech), speech)}/min`;
}

function perMinute({ estimate, low, high }: Estimate): Estimate {
  return { estimate: estimate * 60, low: low * 60, high: high * 60 };
}

/** What a gauge showed: '251 micron', to the digit that its scatter allows; 'not measured' in a silence. */
export function sayReading(pressurePa: Estimate | null, speech: Speech): string {
  if (pressurePa === null) return speech.wording.amounts.notMeasured;
  const value = pressureFromPa(pressurePa.estimate, speech.units.pressure);
  return withUnit(estimateNumber(value, speech), speech);
}

/** 'about 38 micron, between 34 and 42'. */
export function sayPressureBetween(pressurePa: Estimate, speech: Speech): string {
  const factor = pressureFromPa(1, speech.units.pressure);
  return sayScaledBetween(pressurePa, factor, (digits) => withUnit(digits, speech), speech);
}

/** 'about 38 micron a minute, between 34 and 42' from Pa/s. */
export function sayRateBetween(paPerS: Estimate, speech: Speech): string {
  const factor = pressureFromPa(60, speech.units.pressure);
  const named = (digits: string) =>
    speech.wording.amounts.perMinute({ amount: withUnit(digits, speech) });
  return sayScaledBetween(paPerS, factor, named, speech);
}

function sayScaledBetween(
  { estimate, low, high }: Estimate,
  factor: number,
  named: (digits: string) => string,
  speech: Speech,
): string {
  const scaled = { estimate: estimate * factor, low: low * factor, high: high * factor };
  const digits = digitsFor(scaled);
  return sayBetween(scaled, (value) => sayNumber(value, speech, digits), named, speech);
}

/** As many as the width of the interval deserves: two, and up to four of a number above 1000. */
function digitsFor({ estimate, low, high }: Estimate): number {
  const known = Math.floor(Math.log10(Math.abs(estimate) / (high - low)));
  const whole = Math.floor(Math.log10(Math.max(Math.abs(high), 1))) + 1;
  const most = Math.max(Math.min(whole, 4), 2);
  return Number.isFinite(known) ? Math.min(Math.max(known + 2, 2), most) : most;
}

function estimateDigits({ estimate, low, high }: Estimate, speech: Speech): string {
  const digits = (pa: number) => estimateNumber(pressureFromPa(pa, speech.units.pressure), speech);
  const { range } = speech.wording.amounts;
  return range({ about: digits(estimate), low: digits(low), high: digits(high) });
}

/** Tenths of a micron are noise; larger numbers get two or three digits. */
function estimateNumber(value: number, speech: Speech): string {
  const magnitude = Math.abs(value);
  if (magnitude >= 1 && magnitude < 100) return sayNumber(value, speech, 2);
  return sayNumber(value, speech, magnitude < 1 ? 1 : 3);
}
