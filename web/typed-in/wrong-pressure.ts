/** Why what was typed is no pressure. */
import type { PressureUnit } from '../../protocol/units.ts';
import { sayMistakable } from '../words/say-typed-in.ts';
import type { Speech } from '../words/speech.ts';
import { isMistakable } from './typed-number.ts';

export function sayWrongPressure(text: string, unit: PressureUnit, speech: Speech): string {
  return isMistakable(text, unit)
    ? sayMistakable(text, speech)
    : speech.wording.typeIn.wrong.pressure;
}
