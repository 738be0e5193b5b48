/** A report as one HTML file: nothing in it comes from elsewhere, and nothing in it runs. */
import { isSimulated } from '../../protocol/recording.ts';
import { Markup, markup, NOTHING } from '../figure/markup.ts';
import { sayReportName } from '../words/say-report.ts';
import { paragraph, section } from './page-parts.ts';
import type { Report } from './report-model.ts';
import { reportStyle } from './report-style.ts';
import { writeBroken, writeIntegrity } from './write-integrity.ts';
import { writeHead } from './write-head.ts';
import { writeEntries, writeMarks, writeSettings, writeTakenBack } from './write-facts.ts';
import { writeSensor } from './write-sensor.ts';
import { writeSignOff } from './write-sign-off.ts';
import { writeNoReadings } from './write-verdict.ts';

export function writeReport(report: Report): string {
  const { speech } = report;
  const { report: words, work } = speech.wording;
  const rehearsal = isSimulated(report.recording);
  const name = sayReportName(report.recording, report.sheet.site, speech);
  const page = markup`<!doctype html>
<html lang="${speech.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${name}</title>
<style>${new Markup(reportStyle(report.recording.id, rehearsal, speech))}</style>
</head>
<body>
${rehearsal ? markup`<div class="stamp" aria-hidden="true">${words.rehearsalStamp}</div>` : NOTHING}
${writeBroken(report)}
${writeHead(report)}
<main>
${report.sensors.length === 0 ? writeNoReadings(speech) : report.sensors.map((sensor) => writeSensor(report, sensor))}
${writeTakenBack(report)}
${writeMarks(report)}
${writeSettings(report)}
${writeEntries(report)}
${section(
  words.proof,
  paragraph(words.proves),
  paragraph(words.provesNot),
  paragraph(work.whoDecides, 'caution'),
  paragraph(`${words.drawnBy({ version: report.softwareVersion })} ${words.rawData}`, 'quiet'),
)}
${writeIntegrity(report)}
${writeSignOff(rehearsal, speech)}
</main>
</body>
</html>
`;
  return page.text;
}
