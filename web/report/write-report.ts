/** A report as one HTML file: nothing in it comes from elsewhere, and nothing in it runs. */
import { isSimulated } from '../../protocol/recording.ts';
import { Markup, markup, NOTHING } from '../figure/markup.ts';
import { WHO_DECIDES } from '../words/say-caution.ts';
import { REPORT_WORDS } from '../words/report-words.ts';
import { sayDrawnBy, sayReportName } from '../words/say-report.ts';
import { paragraph, section } from './page-parts.ts';
import type { Report } from './report-model.ts';
import { reportStyle } from './report-style.ts';
import { writeHead } from './write-head.ts';
import { writeEntries, writeMarks, writeSettings, writeTakenBack } from './write-facts.ts';
import { writeSensor } from './write-sensor.ts';
import { writeSignOff } from './write-sign-off.ts';
import { writeNoReadings } from './write-verdict.ts';

export function writeReport(report: Report): string {
  const rehearsal = isSimulated(report.recording);
  const name = sayReportName(report.recording, report.sheet.site);
  const page = markup`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${name}</title>
<style>${new Markup(reportStyle(report.recording.id, rehearsal))}</style>
</head>
<body>
${rehearsal ? markup`<div class="stamp" aria-hidden="true">${REPORT_WORDS.rehearsalStamp}</div>` : NOTHING}
${writeHead(report)}
<main>
${report.sensors.length === 0 ? writeNoReadings() : report.sensors.map((sensor) => writeSensor(report, sensor))}
${writeTakenBack(report)}
${writeMarks(report)}
${writeSettings(report)}
${writeEntries(report)}
${section(
  REPORT_WORDS.proof,
  paragraph(REPORT_WORDS.proves),
  paragraph(REPORT_WORDS.provesNot),
  paragraph(WHO_DECIDES, 'caution'),
  paragraph(`${sayDrawnBy(report.softwareVersion)} ${REPORT_WORDS.rawData}`, 'quiet'),
)}
${writeSignOff(rehearsal)}
</main>
</body>
</html>
`;
  return page.text;
}
