/** Pressures and their rates in the unit of choice. */
import { type PressureUnit, pressureFromPa } from '../../protocol/units.ts';
import type { Estimate } from '../analysis/conclusions.ts';
import { sayBetween } from './say-between.ts';
import { sayNumber } from './say-number.ts';

/** With its unit: '612 micron'. */
export function sayPressure(pressurePa: number, unit: PressureUnit): string {
  return `${pressureDigits(pressurePa, unit)} ${unit}`;
}

/** Without its unit: '612'. Never below zero: absolute pressure has no such values. */
export function pressureDigits(pressurePa: number, unit: PressureUnit): string {
  return sayNumber(pressureFromPa(Math.max(0, pressurePa), unit));
}

/** A figure that somebody set: '5 micron', and not '5.00 micron' as if it had been measured. */
export function saySetting(pressurePa: number, unit: PressureUnit): string {
  return `${settingDigits(pressurePa, unit)} ${unit}`;
}

export function settingDigits(pressurePa: number, unit: PressureUnit): string {
  const digits = pressureDigits(pressurePa, unit);
  return digits.includes('.') ? digits.replace(/\.?0+$/u, '') : digits;
}

/** '38 (34 to 42) micron', two digits: an estimate deserves no more. */
export function sayPressureEstimate(pressurePa: Estimate, unit: PressureUnit): string {
  return `${estimateDigits(pressurePa, unit)} ${unit}`;
}

/** 'between 700 and 765 micron'. */
export function sayPressureEnds({ low, high }: Estimate, unit: PressureUnit): string {
  const [from, to] = [low, high].map((pa) => estimateNumber(pressureFromPa(pa, unit)));
  return from === to ? `${to} ${unit}` : `between ${from} and ${to} ${unit}`;
}

/** '38 (34 to 42) micron a minute' from Pa/s. */
export function sayRateEstimate(paPerS: Estimate, unit: PressureUnit): string {
  return `${estimateDigits(perMinute(paPerS), unit)} ${unit} a minute`;
}

/** The same in few letters, for reading from afar: '38 (34 to 42) micron/min'. */
export function sayShortRate(paPerS: Estimate, unit: PressureUnit): string {
  return `${estimateDigits(perMinute(paPerS), unit)} ${unit}/min`;
}

function perMinute({ estimate, low, high }: Estimate): Estimate {
  return { estimate: estimate * 60, low: low * 60, high: high * 60 };
}

/** What a gauge showed: '251 micron', to the digit that its scatter allows; 'not measured' in a silence. */
export function sayReading(pressurePa: Estimate | null, unit: PressureUnit): string {
  return pressurePa === null
    ? 'not measured'
    : `${estimateNumber(pressureFromPa(pressurePa.estimate, unit))} ${unit}`;
}

/** 'about 38 micron, between 34 and 42'. */
export function sayPressureBetween(pressurePa: Estimate, unit: PressureUnit): string {
  return sayScaledBetween(pressurePa, pressureFromPa(1, unit), unit);
}

/** 'about 38 micron a minute, between 34 and 42' from Pa/s. */
export function sayRateBetween(paPerS: Estimate, unit: PressureUnit): string {
  return sayScaledBetween(paPerS, pressureFromPa(60, unit), `${unit} a minute`);
}

function sayScaledBetween({ estimate, low, high }: Estimate, factor: number, unit: string): string {
  const scaled = { estimate: estimate * factor, low: low * factor, high: high * factor };
  const digits = digitsFor(scaled);
  return sayBetween(scaled, (value) => sayNumber(value, digits), unit);
}

/** As many as the width of the interval deserves: two, and up to four of a number above 1000. */
function digitsFor({ estimate, low, high }: Estimate): number {
  const known = Math.floor(Math.log10(Math.abs(estimate) / (high - low)));
  const whole = Math.floor(Math.log10(Math.max(Math.abs(high), 1))) + 1;
  const most = Math.max(Math.min(whole, 4), 2);
  return Number.isFinite(known) ? Math.min(Math.max(known + 2, 2), most) : most;
}

function estimateDigits(pressurePa: Estimate, unit: PressureUnit): string {
  const digits = (pa: number) => estimateNumber(pressureFromPa(pa, unit));
  const { low, high } = pressurePa;
  return `${digits(pressurePa.estimate)} (${digits(low)} to ${digits(high)})`;
}

/** Tenths of a micron are noise; larger numbers get two or three digits. */
function estimateNumber(value: number): string {
  const magnitude = Math.abs(value);
  if (magnitude >= 1 && magnitude < 10) return sayNumber(value, 2);
  if (magnitude >= 10 && magnitude < 100) return sayNumber(value, 2);
  return sayNumber(value, magnitude < 1 ? 1 : 3);
}
