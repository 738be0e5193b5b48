/** Stretches of a curve of which no line tells: beside their signs, and in the chart's key. */

export const STRETCH_WORDS = {
  gap: 'no readings',
  over_range: 'above the sensor’s range',
  under_range: 'below the sensor’s range',
  warming_up: 'sensor warming up',
  fault: 'sensor fault',
  late: 'came in late',
} as const;
