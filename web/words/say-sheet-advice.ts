/** What follows from an entry of the job sheet, said beside the field: safety, water, the air's pressure. */
import { isFlammable, REFRIGERANTS, SAFETY_CLASS_SOURCE } from '../../protocol/refrigerants.ts';
import type { OIL_TYPES, SYSTEM_HISTORIES } from '../../protocol/sheet.ts';
import { atmosphereAtHeightPa } from '../../protocol/standard-atmosphere.ts';
import { pressureFromPa } from '../../protocol/units.ts';
import { boilingPointC } from '../../protocol/water.ts';
import { sayNumber } from './say-number.ts';
import { sayTemperature } from './say-temperature.ts';
import type { Speech } from './speech.ts';

export interface RefrigerantSafety {
  readonly safetyClass: string;
  /** Where that stands, and how far to trust it. */
  readonly source: string;
  readonly cautions: readonly string[];
}

/** @returns null where the refrigerant is not known */
export function sayRefrigerantSafety(number: string, speech: Speech): RefrigerantSafety | null {
  const words = speech.wording.sheet;
  const known = REFRIGERANTS.find((one) => one.number === number);
  if (known === undefined) return null;
  const { safetyClass: name, classEvidence } = known;
  return {
    safetyClass: words.safetyClass({ name, meaning: words.safetyClasses[name] }),
    source: words.classSources[classEvidence]({ where: SAFETY_CLASS_SOURCE }),
    cautions: [
      ...(isFlammable(name) ? [words.flammable] : []),
      ...(name.startsWith('B') ? [words.toxic] : []),
    ],
  };
}

/** What the history asks for before the pump is started; empty where it asks for nothing. */
export function sayHistoryAdvice(
  history: (typeof SYSTEM_HISTORIES)[number],
  { wording }: Speech,
): string {
  const advice: Partial<Record<typeof history, string>> = wording.sheet.historyAdvice;
  return advice[history] ?? '';
}

/** These take up water from the air many times as fast as mineral oil does: common practice, no source. */
const HYGROSCOPIC: readonly (typeof OIL_TYPES)[number][] = ['poe', 'pve', 'pag'];

export function sayOilAdvice(oil: (typeof OIL_TYPES)[number], { wording }: Speech): string {
  return HYGROSCOPIC.includes(oil) ? wording.sheet.hygroscopic : '';
}

/**
 * What the air weighs there, and what that changes. In the units of the gauges that stand at it: nobody reads
 * the air in micron.
 * @param altitudeM above the sea
 */
export function sayAtmosphere(altitudeM: number, speech: Speech): string {
  const pressurePa = atmosphereAtHeightPa(altitudeM);
  return speech.wording.sheet.atmosphere({
    kPa: sayNumber(pressurePa / 1000, speech),
    inHg: sayNumber(pressureFromPa(pressurePa, 'inHg'), speech),
    bar: sayNumber(pressurePa / 1e5, speech, 2),
    boils: sayTemperature(boilingPointC(pressurePa), speech),
  });
}
