/** Names and places of the sensors that are being recorded. */
import type { Recording } from '../../protocol/recording.ts';
import type { SourceState } from '../../protocol/source-state.ts';
import { Panel } from '../parts/panel.tsx';
import { speech } from '../store/speech.ts';
import { sayOwnIdentity, sayOwnName } from '../words/say-sensor.ts';
import { InReach } from './in-reach.tsx';
import { isNameable } from './is-nameable.ts';
import { SensorForm } from './sensor-form.tsx';

interface SensorsPanelProps {
  readonly recording: Recording | null;
  readonly sources: readonly SourceState[];
}

export function SensorsPanel({ recording, sources }: SensorsPanelProps) {
  const words = speech.value.wording.sensors;
  if (!isNameable(recording)) {
    return (
      <Panel title={words.title} testId="sensors-panel">
        <p>{words.none}</p>
        <InReach sources={sources} />
      </Panel>
    );
  }
  return (
    <Panel title={words.title} testId="sensors-panel">
      <p class="quiet">{words.help}</p>
      {recording.sensors.map((sensor) => (
        <SensorForm
          key={sensor.id}
          sensorId={sensor.id}
          heading={sayOwnIdentity(sensor, speech.value)}
          ownName={sayOwnName(sensor, speech.value)}
          label={sensor.label}
          calibratedOn={sensor.calibratedOn}
          isRead={recording.origin === 'typed_in'}
        />
      ))}
      <InReach sources={sources} />
    </Panel>
  );
}
