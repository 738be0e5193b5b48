/**
 * Test files that together take some minutes of both processors: `npm test` leaves them out and says so at its end, so
 * that it stays within a quarter of an hour; `npm test -- --long` runs these as well. Each has a shorter relative
 * that `npm test` runs: the same radio with the first library, alerts and screens in fewer situations.
 */
export const LONG_FILES: readonly string[] = [
  'tests/radio/second-library.test.ts',
  'tests/radio/second-rule-breakers.test.ts',
  'tests/browser/alerts-reach.test.ts',
  'tests/browser/alerts-windows.test.ts',
  'tests/browser/alert-titles.test.ts',
  'tests/browser/rehearsals.test.ts',
  'tests/browser/alerts-shared.test.ts',
  'tests/browser/old-recording.test.ts',
  'tests/browser/everyone.test.ts',
  'tests/browser/translated.test.ts',
  'tests/browser/glance.test.ts',
  'tests/unit/analysis/rise-ensemble.test.ts',
];
