/** Lengths of time in words; the units' signs are the same in every language. */
import type { Speech } from './speech.ts';

const MINUTE_S = 60;
const HOUR_S = 3600;

/** Exact to the second: '45 s', '6 min 10 s', '2 h 5 min'. */
export function sayDuration(seconds: number): string {
  const whole = Math.max(0, Math.round(seconds));
  if (whole < MINUTE_S) return `${whole} s`;
  if (whole < HOUR_S) return joined(Math.floor(whole / MINUTE_S), 'min', whole % MINUTE_S, 's');
  const minutes = Math.round(whole / MINUTE_S);
  return joined(Math.floor(minutes / 60), 'h', minutes % 60, 'min');
}

/** As an estimate deserves: '40 s', '3 min', '25 min', '1 h 20 min'. */
export function sayRoughDuration(seconds: number): string {
  const { value, unit } = roughly(seconds);
  if (unit === 'min' && value >= 60) return joined(Math.floor(value / 60), 'h', value % 60, 'min');
  return `${value} ${unit}`;
}

/** 'between 2 and 5 min', 'between 40 s and 2 min', 'at least 2 min' where there is no upper end. */
export function sayDurationBetween(
  lowS: number,
  highS: number | null,
  { wording }: Speech,
): string {
  const words = wording.amounts;
  if (highS === null) return words.atLeastWithoutEnd({ least: sayRoughDuration(lowS) });
  const low = roughly(lowS);
  const high = roughly(highS);
  if (low.value === high.value && low.unit === high.unit) {
    return words.giveOrTakeLess({ amount: low.unit === 's' ? '5 s' : words.aMinute });
  }
  const bothShort = low.unit === high.unit && Math.max(low.value, high.value) < 60;
  const first = bothShort ? String(low.value) : sayRoughDuration(lowS);
  return words.between({ low: first, high: sayRoughDuration(highS) });
}

/** A moment on the recording's own clock: '3:05', '1:02:30'. */
export function sayMoment(seconds: number): string {
  const whole = Math.max(0, Math.round(seconds));
  const rest = String(whole % 60).padStart(2, '0');
  const minutes = Math.floor(whole / 60);
  if (minutes < 60) return `${minutes}:${rest}`;
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}:${rest}`;
}

function roughly(seconds: number): { value: number; unit: 's' | 'min' } {
  if (seconds < 55) return { value: Math.max(5, Math.round(seconds / 5) * 5), unit: 's' };
  const minutes = seconds / MINUTE_S;
  if (minutes < 20) return { value: Math.round(minutes), unit: 'min' };
  return { value: Math.round(minutes / 5) * 5, unit: 'min' };
}

function joined(major: number, majorUnit: string, minor: number, minorUnit: string): string {
  return minor === 0 ? `${major} ${majorUnit}` : `${major} ${majorUnit} ${minor} ${minorUnit}`;
}
