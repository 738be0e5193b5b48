/** A number to two digits, a small one as a power of ten, as instruments show leaks. */
import { sayNumber } from './say-number.ts';
import type { Speech } from './speech.ts';

/** Below this a number is easier read as a power of ten. */
const SMALL = 0.01;

/** '0.21', '2.1·10⁻⁴'. */
export function sayMagnitude(value: number, speech: Speech): string {
  if (value === 0 || !(Math.abs(value) < SMALL)) return sayNumber(value, speech, 2);
  const power = Math.floor(Math.log10(Math.abs(value)));
  return `${sayNumber(value / 10 ** power, speech, 2)}·10${superscript(power)}`;
}

const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

function superscript(power: number): string {
  const text = String(Math.abs(power)).replace(/\d/gu, (digit) =>
    SUPERSCRIPTS.charAt(Number(digit)),
  );
  return power < 0 ? `⁻${text}` : text;
}
