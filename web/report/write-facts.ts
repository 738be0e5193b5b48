/** The facts behind the conclusions: marks, settings, and what was entered when. */
import { sheetFromEntries, sheetSchema } from '../../protocol/sheet.ts';
import type { Markup } from '../figure/markup.ts';
import { MARK_AUTHOR_NAMES, REPORT_WORDS, sayMarkInFull } from '../words/say-report.ts';
import { saySheetValue } from '../words/say-sheet-value.ts';
import { SHEET_NAMES } from '../words/say-sheet.ts';
import { factTable, listTable, paragraph, section } from './page-parts.ts';
import { momentCells, momentColumns } from './report-clock.ts';
import type { Report } from './report-model.ts';

const { columns } = REPORT_WORDS;
const FIELDS = sheetSchema.keyof().options;

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

/** Those that nobody entered among them, since the verdict rests on them as well. */
export function writeSettings({ sheet, units }: Report): Markup {
  const shown = FIELDS.filter((field) => field !== 'site' && field !== 'equipment');
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
