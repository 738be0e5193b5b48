/** What a mark says of the stage. It overrides what the curve says. */
import type { MarkKind } from '../../../protocol/mark.ts';
import type { StageName } from '../conclusions.ts';

/** @returns the stage that begins there (anew, where it is the same), or null where none does */
export function stageBegunBy(kind: MarkKind, during: StageName): StageName | null {
  switch (kind) {
    case 'pump_on':
      // Switching the pump on behind a closed valve changes nothing for the system.
      return during === 'rise' ? null : 'pull_down';
    case 'reopened':
      return 'pull_down';
    case 'isolated':
      return 'rise';
    case 'pump_off':
      // Behind a closed valve that changes nothing either.
      return during === 'pull_down' || during === 'at_depth' ? 'pump_stopped' : null;
    case 'nitrogen_break':
      return 'nitrogen_break';
    case 'joints_tightened':
    case 'sections_shut':
    case 'sections_opened':
    case 'stub_shut':
    case 'stub_opened':
    case 'part_seen':
      // Something else leaks now, or the sensor sees something else: a hold begins anew.
      return during === 'rise' ? 'rise' : null;
    case 'ballast_opened':
    case 'ballast_closed':
    case 'cores_out':
    case 'oil_changed':
    case 'battery_changed':
    case 'cores_in':
    case 'sensor_isolated':
    case 'charge_released':
    case 'job_begun':
    case 'note':
      return null;
  }
}
