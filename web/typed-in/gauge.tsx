/** The gauge that is read: asked about once, remembered, and put right here. */
import { useEffect, useState } from 'preact/hooks';
import type { SensorLabel } from '../../protocol/sensor-label.ts';
import { TYPED_IN_SENSOR_ID } from '../../protocol/typed-in.ts';
import { listSensorLabels } from '../connection/bridge-api.ts';
import { SensorForm } from '../sensors/sensor-form.tsx';
import { speech } from '../store/speech.ts';
import { sayGauge } from '../words/say-typed-in.ts';

export function Gauge() {
  /** Undefined until the bridge has answered. */
  const [label, setLabel] = useState<SensorLabel | null | undefined>(undefined);
  useEffect(() => {
    void listSensorLabels().then((answer) => {
      const labels = answer.ok ? answer.value : [];
      setLabel(labels.find(({ sensorId }) => sensorId === TYPED_IN_SENSOR_ID) ?? null);
    });
  }, []);
  const words = speech.value.wording.typeIn;
  if (label === undefined) return null;
  return (
    <details data-testid="gauge">
      <summary>{label === null ? words.gaugeUnsaid : sayGauge(label, speech.value)}</summary>
      <SensorForm
        sensorId={TYPED_IN_SENSOR_ID}
        heading={words.gauge}
        ownName=""
        label={label}
        calibratedOn={null}
        isRead
        given={setLabel}
      />
    </details>
  );
}
