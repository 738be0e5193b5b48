/** The head of the report: which job, when, and where its readings come from. */
import { isSimulated } from '../../protocol/recording.ts';
import { type Markup, markup, NOTHING } from '../figure/markup.ts';
import { sayDuration } from '../words/say-duration.ts';
import { sayBegan, sayOrigin, sayProvisional } from '../words/say-report.ts';
import { saySheetValue } from '../words/say-sheet-value.ts';
import { sayOffset, sayWallTime } from '../words/say-wall-time.ts';
import { factTable, paragraph } from './page-parts.ts';
import type { Report } from './report-model.ts';

export function writeHead(report: Report): Markup {
  const { recording, sheet, speech, offsetMinutes } = report;
  const { report: words, sheet: fields } = speech.wording;
  const lastS = Math.max(0, ...report.sensors.map(({ latestS }) => latestS));
  const judgedAtS = Math.max(0, ...report.sensors.map((sensor) => sensor.conclusions?.nowS ?? 0));
  const origin = sayOrigin(recording, speech);
  const began = `${sayWallTime(recording.startedAtMs, offsetMinutes, speech)} (${sayOffset(offsetMinutes)})`;
  return markup`<header>
${banner(report)}
<h1>${isSimulated(recording) ? words.rehearsalTitle : words.title}</h1>
${factTable([
  { name: fields.names.site, value: saySheetValue(sheet, 'site', speech) },
  { name: fields.names.equipment, value: saySheetValue(sheet, 'equipment', speech) },
  { name: sayBegan(recording.origin, speech), value: began },
  { name: words.length, value: sayDuration(lastS) },
  { name: words.recording, value: String(recording.id) },
  { name: words.origin, value: origin.name },
])}
${recording.open ? paragraph(sayProvisional(judgedAtS, speech), 'caution') : NOTHING}
</header>`;
}

/** What did not come from a sensor says so before anything else. */
function banner({ recording, speech }: Report): Markup {
  const { name, statement } = sayOrigin(recording, speech);
  if (statement === '') return NOTHING;
  return markup`<div class="banner" role="note"><b>${name}</b>${statement}</div>`;
}
