/** Which source, and which of its sensors, a recording is watched by: pure. */
import type { Origin, Recording } from '../../protocol/recording.ts';
import type { SourceState } from '../../protocol/source-state.ts';

const KINDS: Readonly<Record<Origin, SourceState['kind']>> = {
  sensor: 'radio',
  rehearsal: 'rehearsal',
  import: 'import',
  typed_in: 'typed_in',
};

/**
 * A rehearsal's recording belongs to the rehearsal; a job's to the radio, by name where it can.
 * @param channel the sensor that is watched: a position among the recording's sensors
 */
export function sourceOf(
  recording: Recording | null,
  channel: number,
  sources: readonly SourceState[],
): SourceState | null {
  const kind = KINDS[recording?.origin ?? 'sensor'];
  const own = sources.filter((source) => source.kind === kind);
  const sensors = recording?.sensors ?? [];
  const source =
    own.find(({ id, name }) =>
      sensors.some((sensor) => sensor.id === id || sensor.name === name),
    ) ?? own.at(-1);
  if (source === undefined) return null;
  const watched = sensors[channel];
  return watched === undefined ? source : asOneSensor(source, watched.id);
}

/** The condition of another sensor must not be taken for that of this one. */
function asOneSensor(source: SourceState, sensorId: string): SourceState {
  if (source.sensors.length === 0) return source;
  const sensor = source.sensors.find((one) => one.sensorId === sensorId);
  if (sensor !== undefined) {
    const { phase, sinceMs, problem, batteryPercent, signalDbm, missedReadings = 0 } = sensor;
    return { ...source, phase, sinceMs, problem, batteryPercent, signalDbm, missedReadings };
  }
  const unheard = { ...source, batteryPercent: null, signalDbm: null };
  // Not heard since the bridge was started: the radio looks for it, while there is one.
  if (source.phase === 'unavailable') return unheard;
  return { ...unheard, phase: 'searching', problem: null };
}
