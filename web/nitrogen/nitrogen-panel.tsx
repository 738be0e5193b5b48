/** The nitrogen test: what was read at the start and since, and what that shows. */
import { useState } from 'preact/hooks';
import { GAUGE_UNITS } from '../../protocol/gauge-pressure.ts';
import { NITROGEN_STEPS } from '../../protocol/nitrogen-steps.ts';
import { nitrogenTest } from '../analysis/nitrogen/nitrogen-test.ts';
import { Panel } from '../parts/panel.tsx';
import { PickOne } from '../parts/pick-one.tsx';
import { speech } from '../store/speech.ts';
import { gaugeUnitOf } from '../words/say-gauge-pressure.ts';
import { sayNitrogenSteps } from '../words/say-nitrogen.ts';
import { GaugeForm } from './gauge-form.tsx';
import type { NitrogenProps } from './nitrogen-props.ts';
import { ReadingForm } from './reading-form.tsx';
import { ReadingList } from './reading-list.tsx';
import { StepResult } from './step-result.tsx';

export function NitrogenPanel({ open }: Omit<NitrogenProps, 'unit'>) {
  const words = speech.value.wording.nitrogen;
  const [unit, setUnit] = useState(() => gaugeUnitOf(speech.peek()));
  const sheet = open.sheet.value;
  const { nitrogenReadings: readings } = sheet;
  const tested = nitrogenTest(readings, sheet.nitrogenGauge, sheet);
  const holds = tested.some((step) => step.kind === 'compared' && step.verdict === 'holds');
  const cautions = readings.length === 0 ? words.before : holds ? words.after : words.during;
  const all = { open, unit };
  return (
    <Panel title={words.title} testId="nitrogen-panel">
      {open.above}
      <ul class="cautions" data-testid="nitrogen-cautions">
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <div class="nitrogen-results" role="status" data-testid="nitrogen-results">
        {tested.length === 0 && <p>{words.none}</p>}
        {tested.map((step) => (
          <StepResult key={step.step} tested={step} unit={unit} isAlone={tested.length === 1} />
        ))}
      </div>
      <PickOne
        legend={words.unit}
        name="gauge-unit"
        options={GAUGE_UNITS}
        chosen={unit}
        label={(one) => words.unitName({ unit: one })}
        pick={setUnit}
      />
      <ReadingForm key={unit} {...all} />
      <ReadingList {...all} />
      <GaugeForm key={`of ${unit}`} {...all} />
      <details>
        <summary>{words.stepsTitle}</summary>
        <dl class="nitrogen-steps">
          {NITROGEN_STEPS.map((steps) => (
            <div key={steps.id}>
              <dt>{words.stepNames[steps.id]}</dt>
              <dd>{sayNitrogenSteps(steps, unit, speech.value)}</dd>
            </div>
          ))}
        </dl>
        <p class="quiet">{words.makerFirst}</p>
      </details>
      <p class="quiet">{speech.value.wording.work.whoDecides}</p>
    </Panel>
  );
}
