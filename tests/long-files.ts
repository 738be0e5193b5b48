/**
 * Test files that together take some minutes of both processors: `npm test` leaves them out and says so at its end, so
 * that it stays within a quarter of an hour; `npm test -- --long` runs these as well, and whoever changes a screen, the alerts
 * or the judge runs the ones that look at it by name. Alerts, rehearsals, words, verdicts, vans, typed
 * readings, files, nitrogen tests and leak hunts have shorter tests that `npm test` runs.
 */
export const LONG_FILES: readonly string[] = [
  'tests/browser/alerts-of-the-gear.test.ts',
  'tests/browser/alerts-reach.test.ts',
  'tests/browser/alerts-windows.test.ts',
  'tests/browser/alert-titles.test.ts',
  'tests/browser/rehearsals.test.ts',
  'tests/browser/alerts-shared.test.ts',
  'tests/browser/old-recording.test.ts',
  'tests/browser/hand-and-file.test.ts',
  'tests/browser/own-hands.test.ts',
  'tests/browser/test-and-hunt.test.ts',
  'tests/browser/translated.test.ts',
  'tests/browser/two-jobs.test.ts',
  'tests/browser/everyone.test.ts',
  'tests/browser/glance.test.ts',
  'tests/browser/language.test.ts',
  'tests/unit/analysis/rise/rise-ensemble.test.ts',
  'tests/unit/analysis/stages/stages-ensemble.test.ts',
  'tests/house/same-build.test.ts',
  'tests/radio/second-library.test.ts',
  'tests/radio/second-rule-breakers.test.ts',
  'tests/contract/vans.test.ts',
  'tests/contract/van-cuts.test.ts',
];
