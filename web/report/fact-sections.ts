/** The facts behind the conclusions: marks, settings, and what was entered when. */
import { DEFAULT_SHEET, sheetFromEntries, sheetSchema } from '../../protocol/sheet.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { sayMarkInFull } from '../words/say-report.ts';
import { sayPressure } from '../words/say-pressure.ts';
import { saySheetValue } from '../words/say-sheet-value.ts';
import { sayAtmosphere, sayRefrigerantSafety } from '../words/say-sheet-advice.ts';
import { sayWallTime } from '../words/say-wall-time.ts';
import { factTable, listTable, paragraph, section, type Section } from './report-document.ts';
import { momentCells, momentColumns } from './report-clock.ts';
import type { Report } from './report-model.ts';

const FIELDS = sheetSchema.keyof().options;
/** At the head of the report. */
const PLACE: readonly (keyof Sheet)[] = ['site', 'equipment'];
/** Told whole in sections of their own, and beside each hold. */
const OWN_SECTIONS: readonly (keyof Sheet)[] = [
  'nitrogenReadings',
  'nitrogenGauge',
  'triplePlan',
  'seenSection',
];
/** No verdict rests on these: what was not entered of them is left out. */
const BESIDE: readonly (keyof Sheet)[] = [
  'pumpDisplacementM3PerS',
  'pumpUltimatePa',
  'hoseBoreM',
  'hoseLengthM',
  'hoseCount',
  'core',
  'stubVolumeM3',
  'pumpBatteryS',
  'serial',
  'oil',
  'systemHistory',
  'altitudeM',
  'ambientTemperatureC',
  'coldestPlace',
  'people',
  'valveOrder',
  'pumpBallast',
  'pumpOilChangedOn',
  'tubes',
  'vessels',
  'sections',
  'joins',
];
/** Has a section of its own. */
const ELSEWHERE: readonly (keyof Sheet)[] = [...PLACE, 'tickedSteps'];

export function marksSection(report: Report): Section {
  const { marks, speech } = report;
  const words = speech.wording.report;
  const { columns } = words;
  if (marks.length === 0) return section(words.marks, paragraph(words.noMarks));
  return section(
    words.marks,
    listTable(
      [...momentColumns(report, columns.at, columns.clock), columns.mark, columns.setBy],
      marks.map((mark) => [
        ...momentCells(report, mark.elapsedS),
        sayMarkInFull(mark, speech),
        words.authors[mark.madeBy],
      ]),
    ),
  );
}

/** A slip that was put right shows, with what stands in its place; nothing where there was none. */
export function takenBackSections(report: Report): Section[] {
  const { takenBack, speech, recording, offsetMinutes } = report;
  const words = speech.wording.report;
  const { columns } = words;
  if (takenBack.length === 0) return [];
  const said = (pressurePa: number | null) =>
    pressurePa === null ? words.nothingInstead : sayPressure(pressurePa, speech);
  const headings = [
    ...momentColumns(report, columns.at, columns.clock),
    columns.typed,
    columns.instead,
    columns.takenBack,
  ];
  const rows = takenBack.map(({ elapsedS, pressurePa, insteadPa, atMs }) => [
    ...momentCells(report, elapsedS),
    said(pressurePa),
    said(insteadPa),
    sayWallTime(Math.max(atMs, recording.startedAtMs), offsetMinutes, speech),
  ]);
  const help = paragraph(words.takenBackHelp, 'quiet');
  return [section(words.takenBack, help, listTable(headings, rows))];
}

/** A mark that was taken back shows as well: a stage may have rested on it for a while. */
export function marksTakenBackSections(report: Report): Section[] {
  const { marksTakenBack, speech } = report;
  const words = speech.wording.report;
  const { columns } = words;
  if (marksTakenBack.length === 0) return [];
  const rows = marksTakenBack.map((mark) => [
    ...momentCells(report, mark.elapsedS),
    sayMarkInFull(mark, speech),
  ]);
  const headings = [...momentColumns(report, columns.at, columns.clock), columns.mark];
  const help = paragraph(words.marksTakenBackHelp, 'quiet');
  return [section(words.marksTakenBack, help, listTable(headings, rows))];
}

/** Those that nobody entered among them, as far as the verdict rests on them as well. */
export function settingsSection({ sheet, speech }: Report): Section {
  const words = speech.wording.report;
  const shown = FIELDS.filter(
    (field) =>
      !ELSEWHERE.includes(field) &&
      !OWN_SECTIONS.includes(field) &&
      !(BESIDE.includes(field) && isUnentered(sheet[field], field)),
  );
  const facts = shown.map((field) => ({
    name: speech.wording.sheet.names[field],
    value: saySheetValue(sheet, field, speech),
  }));
  const safety = sayRefrigerantSafety(sheet.refrigerant, speech);
  return section(
    words.settings,
    factTable(facts),
    paragraph(
      safety === null ? '' : `${sheet.refrigerant}: ${safety.safetyClass} ${safety.source}`,
    ),
    ...(safety?.cautions ?? []).map((caution) => paragraph(caution, 'caution')),
    paragraph(sheet.altitudeM === null ? '' : sayAtmosphere(sheet.altitudeM, speech), 'quiet'),
    paragraph(words.settingsSource, 'quiet'),
  );
}

function isUnentered(value: Sheet[keyof Sheet], field: keyof Sheet): boolean {
  return value === DEFAULT_SHEET[field] || (Array.isArray(value) && value.length === 0);
}

/** In the order in which they came: a limit that was changed after the hold shows. */
export function entriesSection(report: Report): Section {
  const { speech } = report;
  const words = speech.wording.report;
  const { columns } = words;
  const rows = report.entries.flatMap((entry, at) => {
    // With those before it: whose figures a rule has is not said by one entry.
    const entered = sheetFromEntries(report.entries.slice(0, at + 1));
    return FIELDS.filter((field) => entry.fields[field] !== undefined).map((field) => [
      ...momentCells(report, entry.elapsedS),
      speech.wording.sheet.names[field],
      saySheetValue(entered, field, speech),
    ]);
  });
  if (rows.length === 0) return section(words.entries, paragraph(words.noEntries));
  const headings = [
    ...momentColumns(report, columns.at, columns.clock),
    columns.entry,
    columns.value,
  ];
  return section(words.entries, listTable(headings, rows));
}
