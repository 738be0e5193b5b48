/**
 * Refrigerants by their numbers in ASHRAE Standard 34, with what a rough figure of their loss needs.
 *
 * Molar masses, viscosities of the vapour at 20 °C and 1 atm, and vapour pressures at 20 °C (of the
 * boiling liquid, for blends) come from the reference equations of state and transport models as the
 * open property library CoolProp 8.0.0 has them; blends with the standard's composition. The
 * viscosities of blends are estimates there, good to some ten per cent.
 *
 * Safety classes are those of ANSI/ASHRAE Standard 34 (2022), which ISO 817 has as well.
 */

/** A number once recorded is never taken out. */
export const REFRIGERANT_NUMBERS = [
  'R-22',
  'R-32',
  'R-134a',
  'R-290',
  'R-404A',
  'R-407C',
  'R-410A',
  'R-448A',
  'R-454B',
  'R-454C',
  'R-513A',
  'R-600a',
  'R-717',
  'R-744',
  'R-1234yf',
] as const;
type RefrigerantNumber = (typeof REFRIGERANT_NUMBERS)[number];

export interface Refrigerant {
  readonly number: string;
  readonly kgPerMol: number;
  readonly viscosityPaS: number;
  readonly vapourPressurePa: number;
  readonly safetyClass: SafetyClass;
  /** How the class is known: where others restate the standard, or from memory. */
  readonly classEvidence: ClassEvidence;
}

/** Toxicity (A lower, B higher) and flammability (1 none, 2L burns slowly, 2 burns, 3 burns readily). */
export type SafetyClass = 'A1' | 'A2L' | 'A3' | 'B2L';

type ClassEvidence = 'second_hand' | 'memory';

/** Where the classes stand. */
export const SAFETY_CLASS_SOURCE = 'ANSI/ASHRAE Standard 34, ISO 817';

export function isFlammable(safetyClass: SafetyClass): boolean {
  return safetyClass !== 'A1';
}

export const REFRIGERANTS: readonly Refrigerant[] = [
  row('R-22', 86.468, 13.55, 9.1e5, 'A1', 'second_hand'),
  row('R-32', 52.024, 13.14, 14.75e5, 'A2L', 'second_hand'),
  row('R-134a', 102.032, 11.62, 5.72e5, 'A1', 'second_hand'),
  row('R-290', 44.096, 8.01, 8.36e5, 'A3', 'second_hand'),
  row('R-404A', 97.604, 11.58, 10.97e5, 'A1', 'second_hand'),
  row('R-407C', 86.204, 12.38, 10.38e5, 'A1', 'memory'),
  row('R-410A', 72.585, 13.02, 14.48e5, 'A1', 'second_hand'),
  row('R-448A', 86.283, 12.58, 11.27e5, 'A1', 'memory'),
  row('R-454B', 62.614, 12.97, 13.85e5, 'A2L', 'second_hand'),
  row('R-454C', 90.776, 12.53, 10.32e5, 'A2L', 'second_hand'),
  row('R-513A', 108.426, 11.91, 6.14e5, 'A1', 'memory'),
  row('R-600a', 58.122, 7.37, 3.02e5, 'A3', 'second_hand'),
  row('R-717', 17.031, 9.91, 8.57e5, 'B2L', 'second_hand'),
  row('R-744', 44.01, 14.67, 57.29e5, 'A1', 'memory'),
  row('R-1234yf', 114.042, 12.18, 5.92e5, 'A2L', 'second_hand'),
];

function row(
  number: RefrigerantNumber,
  gPerMol: number,
  viscosityMicroPaS: number,
  vapourPressurePa: number,
  safetyClass: SafetyClass,
  classEvidence: ClassEvidence,
): Refrigerant {
  return {
    number,
    kgPerMol: gPerMol / 1000,
    viscosityPaS: viscosityMicroPaS * 1e-6,
    vapourPressurePa,
    safetyClass,
    classEvidence,
  };
}
