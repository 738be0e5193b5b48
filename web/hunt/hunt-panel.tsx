/** A leak hunt: what each part did when it was held by itself, and where by that the leak is. */
import { useMemo } from 'preact/hooks';
import { lastNitrogenTest } from '../analysis/nitrogen/nitrogen-test.ts';
import { Panel } from '../parts/panel.tsx';
import { speech } from '../store/speech.ts';
import { sayHunt, sayHuntHold, sayPart, saySlowest } from '../words/say-hunt.ts';
import { saySensors } from '../words/say-sensor.ts';
import type { HuntProps } from './hunt-props.ts';
import { RiseCurve } from './rise-curve.tsx';
import { SeesNow } from './sees-now.tsx';
import { StubVolume } from './stub-volume.tsx';

/** Fitting a dozen holds takes longer than a reading: so often the one that goes on is fitted anew, s. */
const EVERY_S = 10;

export function HuntPanel({ followed, recording }: HuntProps) {
  const words = speech.value.wording.hunt;
  const nowS = Math.floor((followed.conclusions.value?.nowS ?? 0) / EVERY_S) * EVERY_S;
  const facts = [nowS, followed.marks.value, followed.entries.value, followed.channel.value];
  const hunt = useMemo(() => followed.leakHunt(nowS), facts);
  const sheet = followed.sheet.value;
  const tested = lastNitrogenTest(sheet.nitrogenReadings, sheet.nitrogenGauge, sheet);
  const passedNitrogen = tested?.verdict === 'holds';
  // Side by side on one scale: a steeper one is a steeper one.
  const points = hunt.holds.flatMap(({ curve }) => curve);
  const mostS = Math.max(60, ...points.map(({ heldS }) => heldS));
  const mostPa = Math.max(1, ...hunt.holds.map(({ curve }) => spanOf(curve)));
  return (
    <Panel title={words.title} testId="hunt-panel">
      <ol class="cautions">
        {words.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      <SeesNow followed={followed} recording={recording} />
      <div role="status" data-testid="hunt-said">
        {sayHunt(hunt, passedNitrogen, speech.value).map((sentence, at) => (
          <p key={sentence} class={at === 0 ? 'hunt-place' : ''}>
            {sentence}
          </p>
        ))}
      </div>
      {hunt.holds.length === 0 ? (
        <p class="quiet">{words.noHolds}</p>
      ) : (
        <ul class="hunt-holds" data-testid="hunt-holds">
          {hunt.holds.map((hold) => (
            <li key={hold.fromS}>
              <RiseCurve
                curve={hold.curve}
                mostS={mostS}
                mostPa={mostPa}
                name={words.curve({ part: sayPart(hold.part, speech.value) })}
              />
              <div>
                <b>{sayPart(hold.part, speech.value)}</b>
                <b class={`hunt-${hold.verdict}`}>{words.verdicts[hold.verdict]}</b>
                <span>{sayHuntHold(hold, speech.value)}</span>
              </div>
            </li>
          ))}
        </ul>
      )}
      {recording.sensors.length > 1 && <AllSensors followed={followed} recording={recording} />}
      <StubVolume followed={followed} recording={recording} />
    </Panel>
  );
}

function AllSensors({ followed, recording }: HuntProps) {
  const words = speech.value.wording.hunt.sensors;
  const slowest = followed.together.value;
  if (slowest === null) return null;
  const names = saySensors(recording.sensors, speech.value);
  return (
    <section data-testid="hunt-sensors">
      <h2>{words.title}</h2>
      <p>{saySlowest(slowest, names, speech.value)}</p>
    </section>
  );
}

function spanOf(curve: readonly { readonly pressurePa: number }[]): number {
  const pressures = curve.map(({ pressurePa }) => pressurePa);
  return pressures.length === 0 ? 0 : Math.max(...pressures) - Math.min(...pressures);
}
