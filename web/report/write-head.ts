/** The head of the report: which job, when, and where its readings come from. */
import { isSimulated } from '../../protocol/recording.ts';
import { type Markup, markup, NOTHING } from '../figure/markup.ts';
import { sayDuration } from '../words/say-duration.ts';
import { REPORT_WORDS } from '../words/report-words.ts';
import { sayBegan, sayOrigin, sayProvisional } from '../words/say-report.ts';
import { saySheetValue } from '../words/say-sheet-value.ts';
import { SHEET_NAMES } from '../words/say-sheet.ts';
import { sayOffset, sayWallTime } from '../words/say-wall-time.ts';
import { factTable, paragraph } from './page-parts.ts';
import type { Report } from './report-model.ts';

export function writeHead(report: Report): Markup {
  const { recording, sheet, units, offsetMinutes } = report;
  const lastS = Math.max(0, ...report.sensors.map(({ latestS }) => latestS));
  const judgedAtS = Math.max(0, ...report.sensors.map((sensor) => sensor.conclusions?.nowS ?? 0));
  const origin = sayOrigin(recording);
  const began = `${sayWallTime(recording.startedAtMs, offsetMinutes)} (${sayOffset(offsetMinutes)})`;
  return markup`<header>
${banner(report)}
<h1>${isSimulated(recording) ? REPORT_WORDS.rehearsalTitle : REPORT_WORDS.title}</h1>
${factTable([
  { name: SHEET_NAMES.site, value: saySheetValue(sheet, 'site', units) },
  { name: SHEET_NAMES.equipment, value: saySheetValue(sheet, 'equipment', units) },
  { name: sayBegan(recording.origin), value: began },
  { name: REPORT_WORDS.length, value: sayDuration(lastS) },
  { name: REPORT_WORDS.recording, value: String(recording.id) },
  { name: REPORT_WORDS.origin, value: origin.name },
])}
${recording.open ? paragraph(sayProvisional(judgedAtS), 'caution') : NOTHING}
</header>`;
}

/** What did not come from a sensor says so before anything else. */
function banner({ recording }: Report): Markup {
  const { name, statement } = sayOrigin(recording);
  if (statement === '') return NOTHING;
  return markup`<div class="banner" role="note"><b>${name}</b>${statement}</div>`;
}
