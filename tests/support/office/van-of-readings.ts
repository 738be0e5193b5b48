/** A van's record of one recording that goes on, with readings and, if asked for, marks in it. */
import type { Mark } from '../../../protocol/mark.ts';
import { columnsFromReadings, type Reading } from '../../../protocol/reading.ts';
import type { Recording } from '../../../protocol/recording.ts';
import type { VanRecord } from '../../../server/vans/publish/van-record.ts';

export const VAN_RECORDING: Recording = {
  id: 5,
  origin: 'sensor',
  startedAtMs: Date.UTC(2026, 10, 26, 7, 0, 0),
  title: '',
  sensors: [],
  takenFrom: null,
  open: true,
};

export function vanOfReadings(
  readings: readonly Reading[],
  marks: readonly Mark[] = [],
): VanRecord {
  return {
    recordingIds: () => [VAN_RECORDING.id],
    recording: (id) => (id === VAN_RECORDING.id ? VAN_RECORDING : null),
    marks: () => [...marks],
    sheet: () => [],
    signOffs: () => [],
    takenBack: () => [],
    deletedStretches: () => [],
    chainLength: () => readings.length,
    lastIndex: () => readings.length,
    readingsAfter: (_, after, limit) => columnsFromReadings(readings.slice(after, after + limit)),
  };
}
