/** The head of the report: which job, when, and where its readings come from. */
import { isSimulated, knowsWallTime } from '../../protocol/recording.ts';
import { sayDuration } from '../words/say-duration.ts';
import {
  sayBegan,
  sayOrigin,
  sayProvisional,
  sayRecordingNumber,
  sayTakenFrom,
} from '../words/say-report.ts';
import { saySheetValue } from '../words/say-sheet-value.ts';
import { sayOffset, sayWallTime } from '../words/say-wall-time.ts';
import { brokenBanner, salvagedBanner } from './integrity.ts';
import { type Block, factTable, paragraph } from './report-document.ts';
import type { Report } from './report-model.ts';

export function headOf(report: Report): Block[] {
  const { recording, job, sheet, speech, offsetMinutes } = report;
  const { report: words, sheet: fields } = speech.wording;
  const lastS = Math.max(0, ...report.sensors.map(({ latestS }) => latestS));
  const judgedAtS = Math.max(0, ...report.sensors.map((sensor) => sensor.conclusions?.nowS ?? 0));
  const origin = sayOrigin(recording, speech);
  // A file's time is that of its reading in, whatever part of it the job is.
  const laterS = knowsWallTime(recording.origin) ? job.fromS : 0;
  const beganMs = recording.startedAtMs + laterS * 1000;
  const began = `${sayWallTime(beganMs, offsetMinutes, speech)} (${sayOffset(offsetMinutes)})`;
  const provisional =
    recording.open && job.untilS === null ? sayProvisional(judgedAtS, speech) : '';
  const title = isSimulated(recording) ? words.rehearsalTitle : words.title;
  const blocks: (Block | null)[] = [
    brokenBanner(report),
    salvagedBanner(report),
    // What did not come from a sensor says so before anything else.
    origin.statement === '' ? null : { kind: 'banner', ...origin },
    { kind: 'title', text: title },
    factTable([
      { name: fields.names.site, value: saySheetValue(sheet, 'site', speech) },
      { name: fields.names.equipment, value: saySheetValue(sheet, 'equipment', speech) },
      { name: sayBegan(recording.origin, speech), value: began },
      { name: words.length, value: sayDuration(Math.max(0, lastS - job.fromS)) },
      { name: words.recording, value: sayRecordingNumber(recording, job, speech) },
      { name: words.origin, value: origin.name },
    ]),
    paragraph(provisional, 'caution'),
    paragraph(sayTakenFrom(recording, offsetMinutes, speech), 'quiet'),
  ];
  return blocks.filter((block) => block !== null);
}
