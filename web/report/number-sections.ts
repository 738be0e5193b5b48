/** The numbers behind the verdict, the holds of the job, and the water that its pull-downs took away. */
import { listVerdictNumbers } from '../words/list-verdict-numbers.ts';
import type { NumberGroup } from '../words/number-row.ts';
import { sayDuration } from '../words/say-duration.ts';
import { sayRateEstimate } from '../words/say-pressure.ts';
import { sayRose } from '../words/list-holds.ts';
import { sayWaterConditions, sayWaterRemoved } from '../words/say-water-removed.ts';
import {
  type Block,
  factTable,
  listTable,
  paragraph,
  section,
  type Section,
} from './report-document.ts';
import { momentCells, momentColumns } from './report-clock.ts';
import type { Report, SensorReport } from './report-model.ts';

export function numbersSections({ speech }: Report, { holds, sheet }: SensorReport): Section[] {
  const hold = holds.at(-1);
  if (hold === undefined) return [];
  const groups = listVerdictNumbers(hold.rise, hold.numbers, sheet, speech);
  const intervals = paragraph(speech.wording.numbers.intervals, 'quiet');
  return [section(speech.wording.report.numbers, ...groups.flatMap(numberGroup), intervals)];
}

function numberGroup({ title, rows, notes }: NumberGroup): (Block | null)[] {
  const quiet = notes.map((note) => paragraph(note, 'quiet'));
  return [{ kind: 'heading', text: title }, factTable(rows), ...quiet];
}

/** One hold is told whole by the verdict; of several each is worth knowing. */
export function holdsSections(report: Report, { holds, holdList }: SensorReport): Section[] {
  if (holds.length < 2) return [];
  const { speech } = report;
  const words = speech.wording.report;
  const { columns } = words;
  const headings = [
    columns.hold,
    ...momentColumns(report, columns.began, columns.clock),
    columns.pumped,
    columns.rose,
    columns.inflow,
    columns.verdict,
  ];
  const rows = holds.map(({ rise }, at) => {
    const seen = holdList.find(({ fromS }) => fromS === rise.sinceS);
    return [
      String(at + 1),
      ...momentCells(report, rise.sinceS),
      seen === undefined ? words.unknown : sayDuration(seen.pumpedS),
      sayRose(seen?.startPa ?? null, seen?.endPa ?? null, rise.heldS, speech),
      sayRateEstimate(rise.leakPaPerS, speech),
      speech.wording.verdict.names[rise.verdict],
    ];
  });
  const note = paragraph(speech.wording.numbers.holds.note, 'quiet');
  return [section(words.holds, listTable(headings, rows), note)];
}

/** That of the last pull-down stands among the numbers, where a hold came after it. */
export function waterSections(report: Report, { holds, pullDowns }: SensorReport): Section[] {
  const { speech } = report;
  const words = speech.wording.report;
  const { columns } = words;
  const told = pullDowns.filter(({ water }) => water.kind !== 'no_plateau');
  if (told.length === 0 || (pullDowns.length === 1 && holds.length > 0)) return [];
  const headings = [
    ...momentColumns(report, columns.pullDown, columns.clock),
    columns.water,
    columns.seen,
  ];
  const rows = told.map(({ fromS, water }) => [
    ...momentCells(report, fromS),
    sayWaterRemoved(water, speech),
    sayWaterConditions(water, speech),
  ]);
  return [section(words.water, listTable(headings, rows))];
}
