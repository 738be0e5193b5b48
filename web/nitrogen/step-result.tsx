/** What one of the pressures of a nitrogen test has shown. */
import type { GaugeUnit } from '../../protocol/gauge-pressure.ts';
import type { NitrogenStepTested } from '../analysis/nitrogen/nitrogen-test.ts';
import { SayCard } from '../live/say-card.tsx';
import { clockWords } from '../parts/clock-words.ts';
import { speech } from '../store/speech.ts';
import { sayGauge } from '../words/say-gauge-pressure.ts';
import { sayNitrogen, sayNitrogenGrounds } from '../words/say-nitrogen.ts';

interface StepResultProps {
  readonly tested: NitrogenStepTested;
  readonly unit: GaugeUnit;
  /** Then nobody has to be told which it is. */
  readonly isAlone: boolean;
}

export function StepResult({ tested, unit, isAlone }: StepResultProps) {
  const words = speech.value.wording.nitrogen;
  return (
    <section data-testid={`nitrogen-step-${tested.step}`}>
      {!isAlone && <h2>{words.stepName({ step: String(tested.step) })}</h2>}
      <Told tested={tested} unit={unit} />
    </section>
  );
}

function Told({ tested, unit }: Omit<StepResultProps, 'isAlone'>) {
  const words = speech.value.wording.nitrogen;
  switch (tested.kind) {
    case 'settling':
      return <p>{words.settling({ at: clockWords(tested.untilMs, speech.value) })}</p>;
    case 'begun': {
      const { pressure, atMs } = tested.from;
      const at = clockWords(atMs, speech.value);
      return <p>{words.begun({ pressure: sayGauge(pressure, unit, speech.value), at })}</p>;
    }
    case 'compared': {
      const { detail, ...said } = sayNitrogen(tested, unit, speech.value);
      return (
        <>
          <SayCard said={said} testId="nitrogen-said" />
          <p data-testid="nitrogen-detail">{detail.join(' ')}</p>
          <p class="quiet">{sayNitrogenGrounds(tested, unit, speech.value).join(' ')}</p>
        </>
      );
    }
  }
}
