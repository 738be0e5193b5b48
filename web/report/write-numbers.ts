/** The numbers behind the verdict, the holds of the job, and the water that its pull-downs took away. */
import { type Markup, NOTHING } from '../figure/markup.ts';
import { INTERVALS, listVerdictNumbers } from '../words/list-verdict-numbers.ts';
import { REPORT_WORDS } from '../words/report-words.ts';
import { sayDuration } from '../words/say-duration.ts';
import { sayRateEstimate } from '../words/say-pressure.ts';
import { sayRose } from '../words/list-holds.ts';
import { VERDICT_NAMES } from '../words/say-verdict.ts';
import { sayWaterConditions, sayWaterRemoved } from '../words/say-water-removed.ts';
import { listTable, numberGroup, paragraph, section } from './page-parts.ts';
import { momentCells, momentColumns } from './report-clock.ts';
import type { Report, SensorReport } from './report-model.ts';

const { columns } = REPORT_WORDS;

export function writeNumbers({ units }: Report, { holds, sheet }: SensorReport): Markup {
  const hold = holds.at(-1);
  if (hold === undefined) return NOTHING;
  return section(
    REPORT_WORDS.numbers,
    ...listVerdictNumbers(hold.rise, hold.numbers, sheet, units).map(numberGroup),
    paragraph(INTERVALS, 'quiet'),
  );
}

/** One hold is told whole by the verdict; of several each is worth knowing. */
export function writeHolds(report: Report, { holds, holdList }: SensorReport): Markup {
  if (holds.length < 2) return NOTHING;
  const unit = report.units.pressure;
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
      seen === undefined ? REPORT_WORDS.unknown : sayDuration(seen.pumpedS),
      sayRose(seen?.startPa ?? null, seen?.endPa ?? null, rise.heldS, unit),
      sayRateEstimate(rise.leakPaPerS, unit),
      VERDICT_NAMES[rise.verdict],
    ];
  });
  return section(
    REPORT_WORDS.holds,
    listTable(headings, rows),
    paragraph(REPORT_WORDS.holdsTell, 'quiet'),
  );
}

/** That of the last pull-down stands among the numbers, where a hold came after it. */
export function writeWater(report: Report, { holds, pullDowns }: SensorReport): Markup {
  const told = pullDowns.filter(({ water }) => water.kind !== 'no_plateau');
  if (told.length === 0 || (pullDowns.length === 1 && holds.length > 0)) return NOTHING;
  const headings = [
    ...momentColumns(report, columns.pullDown, columns.clock),
    columns.water,
    columns.seen,
  ];
  const rows = told.map(({ fromS, water }) => [
    ...momentCells(report, fromS),
    sayWaterRemoved(water),
    sayWaterConditions(water, report.units),
  ]);
  return section(REPORT_WORDS.water, listTable(headings, rows));
}
