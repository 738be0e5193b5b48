/** The facts behind the conclusions: marks, settings, and what was entered when. */
import { DEFAULT_SHEET, sheetFromEntries, sheetSchema } from '../../protocol/sheet.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { type Markup, NOTHING } from '../figure/markup.ts';
import { REPORT_WORDS } from '../words/report-words.ts';
import { MARK_AUTHOR_NAMES, sayMarkInFull } from '../words/say-report.ts';
import { sayPressure } from '../words/say-pressure.ts';
import { saySheetValue } from '../words/say-sheet-value.ts';
import { SHEET_NAMES } from '../words/say-sheet.ts';
import { sayWallTime } from '../words/say-wall-time.ts';
import { factTable, listTable, paragraph, section } from './page-parts.ts';
import { momentCells, momentColumns } from './report-clock.ts';
import type { Report } from './report-model.ts';

const { columns } = REPORT_WORDS;
const FIELDS = sheetSchema.keyof().options;
/** At the head of the report. */
const PLACE: readonly (keyof Sheet)[] = ['site', 'equipment'];
/** No verdict rests on these. */
const RIG: readonly (keyof Sheet)[] = [
  'pumpDisplacementM3PerS',
  'pumpUltimatePa',
  'hoseBoreM',
  'hoseLengthM',
  'hoseCount',
  'core',
];

export function writeMarks(report: Report): Markup {
  const { marks } = report;
  if (marks.length === 0) return section(REPORT_WORDS.marks, paragraph(REPORT_WORDS.noMarks));
  return section(
    REPORT_WORDS.marks,
    listTable(
      [...momentColumns(report, columns.at, columns.clock), columns.mark, columns.setBy],
      marks.map((mark) => [
        ...momentCells(report, mark.elapsedS),
        sayMarkInFull(mark),
        MARK_AUTHOR_NAMES[mark.madeBy],
      ]),
    ),
  );
}

/** A slip that was put right shows, with what stands in its place; nothing where there was none. */
export function writeTakenBack(report: Report): Markup {
  const { takenBack, units, recording, offsetMinutes } = report;
  if (takenBack.length === 0) return NOTHING;
  const said = (pressurePa: number | null) =>
    pressurePa === null ? REPORT_WORDS.nothingInstead : sayPressure(pressurePa, units.pressure);
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
    sayWallTime(Math.max(atMs, recording.startedAtMs), offsetMinutes),
  ]);
  return section(
    REPORT_WORDS.takenBack,
    paragraph(REPORT_WORDS.takenBackHelp, 'quiet'),
    listTable(headings, rows),
  );
}

/** Those that nobody entered among them, as far as the verdict rests on them as well. */
export function writeSettings({ sheet, units }: Report): Markup {
  const shown = FIELDS.filter(
    (field) =>
      !PLACE.includes(field) && !(RIG.includes(field) && sheet[field] === DEFAULT_SHEET[field]),
  );
  const facts = shown.map((field) => ({
    name: SHEET_NAMES[field],
    value: saySheetValue(sheet, field, units),
  }));
  return section(
    REPORT_WORDS.settings,
    factTable(facts),
    paragraph(REPORT_WORDS.settingsSource, 'quiet'),
  );
}

/** In the order in which they came: a limit that was changed after the hold shows. */
export function writeEntries(report: Report): Markup {
  const rows = report.entries.flatMap((entry) => {
    const entered = sheetFromEntries([entry]);
    return FIELDS.filter((field) => entry.fields[field] !== undefined).map((field) => [
      ...momentCells(report, entry.elapsedS),
      SHEET_NAMES[field],
      saySheetValue(entered, field, report.units),
    ]);
  });
  if (rows.length === 0) return section(REPORT_WORDS.entries, paragraph(REPORT_WORDS.noEntries));
  const headings = [
    ...momentColumns(report, columns.at, columns.clock),
    columns.entry,
    columns.value,
  ];
  return section(REPORT_WORDS.entries, listTable(headings, rows));
}
