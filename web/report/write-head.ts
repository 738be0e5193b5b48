/** The head of the report: which job, when, and where its readings come from. */
import { type Markup, markup, NOTHING } from '../figure/markup.ts';
import { sayDuration } from '../words/say-duration.ts';
import { knowsWallTime, REPORT_WORDS, sayOrigin, sayProvisional } from '../words/say-report.ts';
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
  const beganName = knowsWallTime(recording.origin) ? REPORT_WORDS.began : REPORT_WORDS.readIn;
  return markup`<header>
${banner(report)}
<h1>${REPORT_WORDS.title}</h1>
${factTable([
  { name: SHEET_NAMES.site, value: saySheetValue(sheet, 'site', units) },
  { name: SHEET_NAMES.equipment, value: saySheetValue(sheet, 'equipment', units) },
  { name: beganName, value: began },
  { name: REPORT_WORDS.length, value: sayDuration(lastS) },
  { name: REPORT_WORDS.recording, value: String(recording.id) },
  { name: REPORT_WORDS.origin, value: `${origin.name}. ${origin.statement}` },
])}
${recording.open ? paragraph(sayProvisional(judgedAtS), 'caution') : NOTHING}
</header>`;
}

/** What did not come from a sensor says so before anything else. */
function banner({ recording }: Report): Markup {
  if (recording.origin === 'sensor') return NOTHING;
  const { name, statement } = sayOrigin(recording);
  return markup`<div class="banner" role="note"><b>${name}</b>${statement}</div>`;
}
