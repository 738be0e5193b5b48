/** A pump's free-air displacement as it stands on its plate: a number and its unit. Pure. */
import { FLOWS_M3_PER_S, measureFrom } from '../typed-in/typed-measure.ts';

/** As they are offered beside the field, and how much of m³/s one of each is. */
export const DISPLACEMENT_UNITS = ['L/min', 'cfm', 'm³/h', 'L/s'] as const;
export type DisplacementUnit = (typeof DISPLACEMENT_UNITS)[number];

export const M3_PER_S_IN: Readonly<Record<DisplacementUnit, number>> = {
  'L/min': 1e-3 / 60,
  cfm: 0.3048 ** 3 / 60,
  'm³/h': 1 / 3600,
  'L/s': 1e-3,
};

/** m³/s; null where nothing was typed, NaN where it can't be read. Without a unit it is what the form says. */
export function displacementFrom(text: string): number | null {
  return measureFrom(text, FLOWS_M3_PER_S, M3_PER_S_IN['L/min']);
}

/** What was typed as a figure and one of the units that are offered; null: it is written with none of them. */
export function displacementParts(text: string): { figure: string; unit: DisplacementUnit } | null {
  const unit = DISPLACEMENT_UNITS.find((one) => text.trim().endsWith(one));
  if (unit === undefined) return null;
  return { figure: text.trim().slice(0, -unit.length).trim(), unit };
}
