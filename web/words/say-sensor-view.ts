/** What the sensor sees. */
import type { SensorView } from '../../protocol/sheet.ts';

export const SENSOR_VIEW_NAMES: Readonly<Record<SensorView, string>> = {
  unknown: 'not said yet',
  system: 'the whole connected system',
  section: 'one section of it',
  stub: 'only a stub of the tool',
  pump_side: 'the pump’s side of the valve',
};
