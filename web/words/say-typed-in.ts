/** Readings that are typed in. */
import type { SensorLabel } from '../../protocol/sensor-label.ts';
import { sayExactly } from './say-number.ts';
import { sayPressure, saySetting } from './say-pressure.ts';
import type { Speech } from './speech.ts';

/** 'Your gauge: roof gauge, at the system, steps of 1 micron'. */
export function sayGauge({ name, place, displayStepPa }: SensorLabel, speech: Speech): string {
  const { sensors, typeIn: words } = speech.wording;
  const said = [
    name,
    place === 'unknown' ? '' : sensors.places[place],
    displayStepPa === null ? '' : words.stepsOf({ step: saySetting(displayStepPa, speech) }),
  ].filter((part) => part !== '');
  return said.length === 0 ? words.gaugeUnsaid : words.gaugeSaid({ said: said.join(', ') });
}

/** What stands in the place of a slip. */
export function sayInstead(insteadPa: number | null, speech: Speech): string {
  const words = speech.wording.typeIn;
  return insteadPa === null
    ? words.takenBack
    : words.putRight({ pressure: sayPressure(insteadPa, speech) });
}

/** Of '1,500': it may be 1500 or 1.5, and how to write the one that is meant. */
export function sayMistakable(text: string, speech: Speech): string {
  const typed = text.trim();
  return speech.wording.typeIn.mistakable({
    typed,
    whole: typed.replace(/[.,]/u, ''),
    broken: sayExactly(Number(typed.replace(',', '.')), speech),
  });
}
