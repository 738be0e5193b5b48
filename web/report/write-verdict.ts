/** The verdict, set off so that it is found at a glance; an open question as plainly as a pass. */
import { type Markup, markup, NOTHING } from '../figure/markup.ts';
import { inSentences, type SaidConclusion } from '../words/said-conclusion.ts';
import {
  sayAfterHold,
  sayNoHold,
  sayNoReadings,
  sayReportVerdict,
  saySensorHeading,
} from '../words/say-report.ts';
import { saySensors } from '../words/say-sensor.ts';
import { sayRuleBeside } from '../words/say-rule-beside.ts';
import type { Speech } from '../words/speech.ts';
import { paragraph, section } from './page-parts.ts';
import type { Report, SensorReport } from './report-model.ts';

export function writeVerdict(report: Report, sensor: SensorReport): Markup {
  const { speech } = report;
  const { verdict } = speech.wording.report;
  const several = report.sensors.length > 1;
  const name = saySensors(report.recording.sensors, speech)[sensor.channel] ?? '';
  const heading = several ? saySensorHeading(verdict, name, sensor.channel + 1, speech) : verdict;
  return writeSaid(heading, said(report, sensor), writeRule(sensor, speech));
}

/** For a recording to which no sensor gave anything. */
export function writeNoReadings(speech: Speech): Markup {
  return writeSaid(speech.wording.report.verdict, sayNoReadings(speech));
}

function writeSaid(heading: string, conclusion: SaidConclusion, beside: Markup = NOTHING): Markup {
  return section(
    heading,
    markup`<div class="verdict verdict-${conclusion.tone}"><strong>${conclusion.headline}</strong>
${inSentences(conclusion).map((sentence) => paragraph(sentence))}${beside}</div>`,
  );
}

/** After the physics, and smaller. */
function writeRule({ holds }: SensorReport, speech: Speech): Markup {
  const hold = holds.at(-1);
  const byRule = hold?.numbers.rise?.byRule;
  if (hold === undefined || byRule === undefined) return NOTHING;
  const { headline, name, remark } = sayRuleBeside(byRule, hold.rise.verdict, speech);
  return markup`<p class="rule"><b>${headline}</b> (${name}). ${remark}</p>`;
}

function said({ speech, recording }: Report, sensor: SensorReport): SaidConclusion {
  const { holds, conclusions, sheet } = sensor;
  const hold = holds.at(-1);
  if (hold === undefined) return sayNoHold(conclusions?.targetReachedS ?? null, sheet, speech);
  const verdict = sayReportVerdict(hold.rise, sheet, speech, recording.open);
  const after = conclusions === null ? '' : sayAfterHold(conclusions.stage.name, speech);
  return { ...verdict, detail: [...verdict.detail, after].filter((part) => part !== '') };
}
