/** A pump's free-air displacement as it stands on its plate: a number and its unit. Pure. */
import { numberFrom } from '../typed-in/typed-number.ts';

/** A cubic foot is (0.3048 m)³ exactly. */
const M3_PER_CUBIC_FOOT = 0.3048 ** 3;

const M3_PER_S: readonly (readonly [RegExp, number])[] = [
  [/^cfm$/u, M3_PER_CUBIC_FOOT / 60],
  [/^(l\/min|lpm)$/u, 1e-3 / 60],
  [/^(l\/s)$/u, 1e-3],
  [/^(m3\/h|m³\/h|cmh)$/u, 1 / 3600],
];
/** Without a unit: what the form says. */
const L_PER_MIN = 'l/min';

/** m³/s; null where nothing was typed, NaN where it can't be read. */
export function displacementFrom(text: string): number | null {
  const [, digits = '', unit = ''] = /^([\d\s.,]*)(.*)$/u.exec(text.trim()) ?? [];
  const value = numberFrom(digits);
  if (value === null) return text.trim() === '' ? null : Number.NaN;
  const written = unit.trim().toLowerCase().replaceAll(' ', '') || L_PER_MIN;
  const found = M3_PER_S.find(([pattern]) => pattern.test(written));
  return found === undefined ? Number.NaN : value * found[1];
}
