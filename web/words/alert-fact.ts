/** What an alert says, as data: the words are drawn from it when they are shown, in the units of then. */
import type { Verdict } from '../../protocol/verdicts.ts';

interface Dated {
  /** Data time of what it says, s. */
  readonly atS: number;
  /** Data time at which that began which it is about: pull-down, hold, silence. */
  readonly sinceS: number;
}

export type AlertFact = Dated &
  (
    | { readonly kind: 'target'; readonly targetPa: number }
    /** The depth to valve off at. */
    | { readonly kind: 'depth'; readonly isolateAtPa: number }
    | { readonly kind: 'levels_off'; readonly targetPa: number; readonly floorPa: number | null }
    | { readonly kind: 'ballast_open' }
    /** @property leftS of the battery, as the sheet has it; `needsS` null: nobody can say */
    | { readonly kind: 'pump_battery'; readonly leftS: number; readonly needsS: number | null }
    | { readonly kind: 'verdict'; readonly verdict: Verdict }
    /** Another verdict on the same hold; `before` is null where it is not known which it was. */
    | {
        readonly kind: 'verdict_changed';
        readonly verdict: Verdict;
        readonly before: Verdict | null;
      }
    /** `toPa` null: beyond the sensor's range. */
    | { readonly kind: 'vacuum_lost'; readonly fromPa: number; readonly toPa: number | null }
    | { readonly kind: 'sensor_battery'; readonly sensor: string; readonly percent: number }
    | { readonly kind: 'sensor_lost'; readonly sensor: string }
    | { readonly kind: 'sensor_back'; readonly sensor: string }
    /** The bridge does not answer this page, or does again. */
    | { readonly kind: 'bridge_lost' }
    | { readonly kind: 'bridge_back' }
    /** Of the computer or phone that shows this page. */
    | { readonly kind: 'device_battery'; readonly percent: number }
  );
export type AlertKind = AlertFact['kind'];
