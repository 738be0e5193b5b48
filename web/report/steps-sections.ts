/** What was done, step by step, how that is known, and how the system was closed up. */
import { CLOSING_STEPS, type StepId } from '../../protocol/ticked-steps.ts';
import { type JobStep, stepsOf } from '../analysis/closing/steps-of.ts';
import { sayStepState, sayValveOrder } from '../words/say-steps.ts';
import { momentCells, momentColumns } from './report-clock.ts';
import { listTable, paragraph, section, type Section } from './report-document.ts';
import type { Report, SensorReport } from './report-model.ts';

/** Nothing where nothing was done yet: a few readings are no job. */
export function stepsSections(report: Report): Section[] {
  const { speech, sheet } = report;
  const words = speech.wording.report;
  const sensor = ofSystem(report);
  if (sensor === null || (sensor.conclusions?.pullDownS ?? null) === null) return [];
  const { conclusions } = sensor;
  const water = sensor.pullDowns.at(-1)?.water ?? null;
  const steps = stepsOf({
    conclusions,
    marks: report.marks,
    sheet,
    hasBoiledOff: water === null ? null : water.kind !== 'no_plateau',
    now: null,
  }).filter(({ state }) => state !== 'to_come');
  const closing: readonly StepId[] = CLOSING_STEPS;
  const before = steps.filter(({ id }) => !closing.includes(id));
  const closed = steps.filter(({ id }) => closing.includes(id));
  return [
    section(words.steps, tableOf(before, report), paragraph(words.stepsHelp, 'quiet')),
    ...(closed.length === 0
      ? []
      : [
          section(
            words.closingUp,
            tableOf(closed, report),
            ...sayValveOrder(sheet, speech).map((said) => paragraph(said)),
          ),
        ]),
  ];
}

/** One at the pump tells nothing of what was done to the system. */
function ofSystem({ sensors }: Report): SensorReport | null {
  return sensors.find(({ sheet }) => sheet.sensorSees !== 'pump_side') ?? sensors[0] ?? null;
}

function tableOf(steps: readonly JobStep[], report: Report) {
  const { speech } = report;
  const { columns } = speech.wording.report;
  const headings = [
    columns.step,
    columns.known,
    ...momentColumns(report, columns.at, columns.clock),
  ];
  const blank = headings.slice(2).map(() => '');
  return listTable(
    headings,
    steps.map((step) => [
      speech.wording.steps.names[step.id],
      sayStepState(step, speech),
      ...(step.atS === null ? blank : momentCells(report, step.atS)),
    ]),
  );
}
