/** The facts of a nitrogen test: what was read from gauge and thermometer, and what is known of both. */
import { z } from 'zod';
import { gaugePressureSchema } from './gauge-pressure.ts';

/** The last moment that a date can say (ECMAScript, Time Values and Time Range), ms. */
const LATEST_MS = 8.64e15;
export const MOST_NITROGEN_READINGS = 100;
export const MOST_NITROGEN_STEPS = 9;

const nitrogenReadingSchema = z.strictObject({
  /** Wall time: no sensor runs during the test, so that there is no data time. */
  atMs: z.int().min(0).max(LATEST_MS),
  pressure: gaugePressureSchema,
  /** Of the metal, where it was measured. */
  temperatureC: z.number().min(-60).max(90).nullable(),
  /** Which of the pressures, one after the other, counted from 1. */
  step: z.int().min(1).max(MOST_NITROGEN_STEPS),
  /** Just filled: gas that has come through a regulator has not the temperature of the metal yet. */
  justFilled: z.boolean(),
  note: z.string().max(200),
});
export type NitrogenReading = z.infer<typeof nitrogenReadingSchema>;

/** In the order of time, all of them anew with each entry. */
export const nitrogenReadingsSchema = z.array(nitrogenReadingSchema).max(MOST_NITROGEN_READINGS);

/** What a gauge's class is a share of. */
export const ACCURACIES_OF = ['full_scale', 'reading'] as const;

export const nitrogenGaugeSchema = z.strictObject({
  /** Its class: 0.01 for one per cent either way. */
  accuracyShare: z.number().min(0).max(0.2),
  accuracyOf: z.enum(ACCURACIES_OF),
  /** The end of its scale. */
  fullScale: gaugePressureSchema,
  /** The least that can be told apart on it, Pa. */
  stepPa: z.number().min(0).max(1e6),
  thermometerK: z.number().min(0).max(10),
  /** Of the air around, absolute, where known; else that of sea level is taken, and doubted. */
  ambientPa: z.number().min(30_000).max(110_000).nullable(),
  /** What the equipment maker allows at most. */
  makersMost: gaugePressureSchema.nullable(),
});
export type NitrogenGauge = z.infer<typeof nitrogenGaugeSchema>;

/**
 * A usual gauge of a manifold set: one per cent of 55 bar (800 psi), read to a psi; a clip-on thermometer. Settings of
 * ours until somebody enters what there is.
 */
export const USUAL_NITROGEN_GAUGE: NitrogenGauge = {
  accuracyShare: 0.01,
  accuracyOf: 'full_scale',
  fullScale: { kind: 'gauge', gaugePa: 5.5e6 },
  stepPa: 7000,
  thermometerK: 1,
  ambientPa: null,
  makersMost: null,
};
