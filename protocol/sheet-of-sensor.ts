/**
 * The job sheet as it holds for one sensor. The sheet says once for the whole recording what the
 * sensor sees; where a sensor sits is said of each. No system verdict may come from the pump's side.
 */
import type { Recording } from './recording.ts';
import type { SensorPlace } from './sensor-label.ts';
import { type Sheet, type SheetEntry, sheetFromEntries, type SensorView } from './sheet.ts';

const VIEWS: Readonly<Record<SensorPlace, SensorView>> = {
  unknown: 'unknown',
  system: 'system',
  pump: 'pump_side',
};

/**
 * What nobody entered is filled in from the sensor's place. Where the two contradict each other the
 * later one holds; but one entry can't lift the caution about a sensor at the pump while several
 * sensors are recorded, since it does not say which of them it means.
 * @param channel a position among the recording's sensors
 */
export function sheetOfSensor(
  entries: readonly SheetEntry[],
  { sensors, startedAtMs }: Pick<Recording, 'sensors' | 'startedAtMs'>,
  channel: number,
): Sheet {
  const sheet = sheetFromEntries(entries);
  const label = sensors[channel]?.label ?? null;
  if (label === null || label.place === 'unknown') return sheet;
  const filledIn = { ...sheet, sensorSees: VIEWS[label.place] };
  if (sheet.sensorSees === 'unknown') return filledIn;
  if ((label.place === 'pump') === (sheet.sensorSees === 'pump_side')) return sheet;
  const enteredS = entries.findLast(({ fields }) => fields.sensorSees !== undefined)?.elapsedS ?? 0;
  const isLater = label.givenAtMs > startedAtMs + enteredS * 1000;
  const isAmbiguous = label.place === 'pump' && sensors.length > 1;
  return isLater || isAmbiguous ? filledIn : sheet;
}
