/** The verdict, set off so that it is found at a glance; an open question as plainly as a pass. */
import { inSentences, type SaidConclusion } from '../words/said-conclusion.ts';
import {
  sayAfterHold,
  sayNoHold,
  sayNoReadings,
  sayReportVerdict,
  saySensorHeading,
} from '../words/say-report.ts';
import { sayTogether } from '../words/say-together.ts';
import { saySensors } from '../words/say-sensor.ts';
import { sayRuleBeside } from '../words/say-rule-beside.ts';
import type { Speech } from '../words/speech.ts';
import { section, type Section, type VerdictBlock } from './report-document.ts';
import type { Report, SensorReport } from './report-model.ts';

export function verdictSection(report: Report, sensor: SensorReport): Section {
  const { speech } = report;
  const { verdict } = speech.wording.report;
  const several = report.sensors.length > 1;
  const name = saySensors(report.recording.sensors, speech)[sensor.channel] ?? '';
  const heading = several ? saySensorHeading(verdict, name, sensor.channel + 1, speech) : verdict;
  return section(heading, saidBlock(said(report, sensor), ruleBeside(sensor, speech)));
}

/** For a recording to which no sensor gave anything. */
export function noReadingsSection(speech: Speech): Section {
  return section(speech.wording.report.verdict, saidBlock(sayNoReadings(speech), null));
}

function saidBlock(conclusion: SaidConclusion, rule: VerdictBlock['rule']): VerdictBlock {
  const { tone, headline } = conclusion;
  return { kind: 'verdict', tone, headline, sentences: inSentences(conclusion), rule };
}

/** After the physics, and smaller. */
function ruleBeside({ holds }: SensorReport, speech: Speech): VerdictBlock['rule'] {
  const hold = holds.at(-1);
  const byRule = hold?.numbers.rise?.byRule;
  if (hold === undefined || byRule === undefined) return null;
  return sayRuleBeside(byRule, hold.rise.verdict, speech);
}

function said({ speech, recording }: Report, sensor: SensorReport): SaidConclusion {
  const { holds, conclusions, sheet } = sensor;
  const hold = holds.at(-1);
  if (hold === undefined) return sayNoHold(conclusions?.targetReachedS ?? null, sheet, speech);
  const own = sayReportVerdict(hold.rise, sheet, speech, recording.open);
  const names = saySensors(recording.sensors, speech);
  const verdict = sayTogether(own, hold.rise, hold.together, names, speech);
  const after = conclusions === null ? '' : sayAfterHold(conclusions.stage.name, speech);
  return { ...verdict, detail: [...verdict.detail, after].filter((part) => part !== '') };
}
