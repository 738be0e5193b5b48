/** The whole examination of one sensor, check by check. */
import type { HostLibrary } from '../../sources/radio/host-library.ts';
import { ACCESS_CHECKS, CONFIGURATION_CHECKS } from './access-checks.ts';
import { CAPABILITIES_CHECKS } from './capabilities-checks.ts';
import { outcomeOf, type Check, type Result } from './check.ts';
import { CONTROL_CHECKS } from './control-checks.ts';
import { findSensor, type Found, type Wanted } from './find-sensor.ts';
import { LAST_CHECKS, LINK_CHECKS } from './link-checks.ts';
import type { Patience } from './patience.ts';
import { READING_CHECKS } from './reading-checks.ts';
import { REPORT_CHECKS } from './report-checks.ts';
import { SERVICE_CHECKS } from './service-checks.ts';
import { Visit } from './visit.ts';

/** In this order: later ones stand on what earlier ones have brought. */
export const CHECKS: readonly Check[] = [
  ...SERVICE_CHECKS,
  ...CAPABILITIES_CHECKS,
  ...READING_CHECKS,
  ...CONTROL_CHECKS,
  ...CONFIGURATION_CHECKS,
  ...REPORT_CHECKS,
  ...ACCESS_CHECKS,
  ...LINK_CHECKS,
  ...LAST_CHECKS,
];

export interface Examination {
  readonly library: HostLibrary;
  readonly wanted: Wanted;
  readonly patience: Patience;
  readonly onFound: (found: Found) => void;
  readonly onResult: (result: Result) => void;
}

/**
 * Leaves the sensor as it was found, and the link ended.
 * @throws DeadlineError where it isn't heard
 */
export async function examine(examination: Examination): Promise<Result[]> {
  const { library, wanted, patience, onFound, onResult } = examination;
  const found = await findSensor(library, wanted, patience);
  onFound(found);
  const visit = new Visit(library, found, patience);
  const results: Result[] = [];
  try {
    for (const check of CHECKS) {
      const { id, section, level, what } = check;
      const outcome = await outcomeOf(check, visit, patience.checkMs);
      const result = { check: { id, section, level, what }, outcome };
      results.push(result);
      onResult(result);
    }
  } finally {
    await visit.peer.disconnect();
  }
  return results;
}
