/** From what a report says to the document that the web page and the PDF are written from. */
import { partOf } from '../../protocol/part-of-recording.ts';
import { isSimulated } from '../../protocol/recording.ts';
import { sayReportName } from '../words/say-report.ts';
import {
  entriesSection,
  marksSection,
  marksTakenBackSections,
  settingsSection,
  takenBackSections,
} from './fact-sections.ts';
import { headOf } from './head-of.ts';
import { integritySection, shortHash } from './integrity.ts';
import { nitrogenSections } from './nitrogen-section.ts';
import { paragraph, type ReportDocument, section, type Section } from './report-document.ts';
import type { Report } from './report-model.ts';
import { sensorSections } from './sensor-sections.ts';
import { signOffSection } from './sign-off.ts';
import { stepsSections } from './steps-sections.ts';
import { noReadingsSection } from './verdict-section.ts';

/** @param attached names of the files that go with it; none go with a web page */
export function documentOf(report: Report, attached: readonly string[] = []): ReportDocument {
  const { recording, sheet, speech, sensors } = report;
  const words = speech.wording.report;
  const rehearsal = isSimulated(recording);
  const hash = shortHash(report);
  return {
    language: speech.language,
    name: sayReportName(recording, sheet.site, speech),
    rehearsal: rehearsal ? { stamp: words.rehearsalStamp, edge: words.rehearsalEdge } : null,
    head: headOf(report),
    sections: [
      ...(sensors.length === 0
        ? [noReadingsSection(speech)]
        : sensors.flatMap((sensor) => sensorSections(report, sensor))),
      ...nitrogenSections(report),
      ...stepsSections(report),
      ...takenBackSections(report),
      marksSection(report),
      ...marksTakenBackSections(report),
      settingsSection(report),
      entriesSection(report),
      proofSection(report, attached),
      integritySection(report),
      signOffSection(report),
    ],
    running: {
      recording: `${words.recording} ${recording.id}`,
      software: `Ebbline ${report.softwareVersion}`,
      hash: hash === '' ? '' : words.hashBegins({ hash }),
      page: (page, of) => words.page({ page: String(page), of: String(of) }),
    },
  };
}

function proofSection(report: Report, attached: readonly string[]): Section {
  const { job, speech, softwareVersion: version } = report;
  const { report: words, work } = speech.wording;
  const files = attached.join(', ');
  const attachedWords = partOf(job) === null ? words.rawDataAttached : words.jobDataAttached;
  const rawData = files === '' ? words.rawData : attachedWords({ files });
  return section(
    words.proof,
    paragraph(words.proves),
    paragraph(words.provesNot),
    paragraph(work.whoDecides, 'caution'),
    paragraph(`${words.drawnBy({ version })} ${rawData}`, 'quiet'),
  );
}
