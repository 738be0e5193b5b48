/** What one sensor measured, and what follows from it. */
import type { SensorLabel } from '../../protocol/sensor-label.ts';
import { drawFigure } from '../figure/draw-figure.ts';
import { FLAG_ROWS } from '../figure/draw-flags.ts';
import type { FigurePicture } from '../figure/figure-picture.ts';
import { type Markup, markup } from '../figure/markup.ts';
import { sayDuration } from '../words/say-duration.ts';
import { REPORT_WORDS } from '../words/report-words.ts';
import {
  sayFurtherGaps,
  sayGap,
  sayGapLength,
  sayReadingCount,
  sayRecognised,
} from '../words/say-report.ts';
import { saySetting } from '../words/say-pressure.ts';
import { sayPlace } from '../words/say-sensor.ts';
import { saySheetValue } from '../words/say-sheet-value.ts';
import { SHEET_NAMES } from '../words/say-sheet.ts';
import { STAGE_NAMES } from '../words/say-stage.ts';
import { sayWallTime } from '../words/say-wall-time.ts';
import { type Fact, factTable, listTable, paragraph, section } from './page-parts.ts';
import { momentCells, momentColumns } from './report-clock.ts';
import type { Report, SensorReport } from './report-model.ts';
import { writeHolds, writeNumbers, writeWater } from './write-numbers.ts';
import { writeVerdict } from './write-verdict.ts';

/** The longest gaps are listed, so many of them; a bad radio makes thousands. */
const MOST_GAPS_LISTED = 30;
const { columns } = REPORT_WORDS;

export function writeSensor(report: Report, sensor: SensorReport): Markup {
  return markup`${writeVerdict(report, sensor)}
${writeNumbers(report, sensor)}
${writeFigures(report, sensor)}
${writeHolds(report, sensor)}
${writeWater(report, sensor)}
${writeStages(report, sensor)}
${writeGaps(report, sensor)}
${writeIdentity(report, sensor)}`;
}

function writeFigures({ marks }: Report, { figures }: SensorReport): Markup {
  const poles = marks.length > FLAG_ROWS ? REPORT_WORDS.poles : '';
  return section(REPORT_WORDS.curves, ...figures.map(writeFigure), paragraph(poles, 'quiet'));
}

function writeFigure(picture: FigurePicture): Markup {
  return markup`<figure><h3>${picture.title}</h3>${drawFigure(picture)}</figure>`;
}

function writeStages(report: Report, { stages }: SensorReport): Markup {
  const headings = [
    columns.stage,
    ...momentColumns(report, columns.began, columns.clock),
    columns.lasted,
    columns.knownBy,
  ];
  const rows = stages.map(({ stage, untilS }) => [
    STAGE_NAMES[stage.name],
    ...momentCells(report, stage.sinceS),
    sayDuration(untilS - stage.sinceS),
    sayRecognised(stage),
  ]);
  return section(REPORT_WORDS.stages, listTable(headings, rows));
}

function writeGaps(report: Report, { gaps, gapsNotKept }: SensorReport): Markup {
  if (gaps.length === 0) return section(REPORT_WORDS.gaps, paragraph(REPORT_WORDS.noGaps));
  const length = ({ fromS, toS }: { fromS: number; toS: number }) => toS - fromS;
  const longestFirst = [...gaps].sort((a, b) => length(b) - length(a));
  const listed = longestFirst.slice(0, MOST_GAPS_LISTED).sort((a, b) => a.fromS - b.fromS);
  const further = longestFirst.slice(MOST_GAPS_LISTED);
  const furtherS = further.reduce((sum, gap) => sum + length(gap), 0);
  const headings = [
    ...momentColumns(report, columns.from, columns.clock),
    columns.lasted,
    columns.what,
  ];
  const rows = listed.map((gap) => [
    ...momentCells(report, gap.fromS),
    sayGapLength(length(gap)),
    sayGap(gap),
  ]);
  return section(
    REPORT_WORDS.gaps,
    listTable(headings, rows),
    paragraph(further.length === 0 ? '' : sayFurtherGaps(further.length, furtherS, gapsNotKept)),
  );
}

function writeIdentity(report: Report, sensor: SensorReport): Markup {
  const { units } = report;
  const names = REPORT_WORDS.identity;
  const { identity, sheet } = sensor;
  const told = (text: string | null) =>
    text === null || text === '' ? REPORT_WORDS.unknown : text;
  return section(
    REPORT_WORDS.sensor,
    factTable([
      ...(identity === null
        ? [{ name: names.name, value: REPORT_WORDS.unknown }]
        : [
            ...writeLabel(report, identity.label),
            { name: names.name, value: told(identity.name) },
            { name: names.manufacturer, value: told(identity.manufacturer) },
            { name: names.model, value: told(identity.model) },
            { name: names.serial, value: told(identity.serial) },
            { name: names.firmware, value: told(identity.firmware) },
            { name: names.id, value: identity.id },
          ]),
      { name: SHEET_NAMES.sensorSees, value: saySheetValue(sheet, 'sensorSees', units) },
      { name: REPORT_WORDS.readings, value: sayReadingCount(sensor.counts) },
    ]),
  );
}

/** What the technician said of it comes before what it says of itself. */
function writeLabel(report: Report, label: SensorLabel | null): Fact[] {
  const names = REPORT_WORDS.label;
  const { recording, units, offsetMinutes } = report;
  if (label === null) return [];
  const { name, displayStepPa, givenAtMs } = label;
  const said = sayWallTime(givenAtMs, offsetMinutes);
  return [
    ...(name === '' ? [] : [{ name: names.name, value: name }]),
    { name: names.place, value: sayPlace(label, recording, said) },
    ...(displayStepPa === null
      ? []
      : [{ name: names.displayStep, value: saySetting(displayStepPa, units.pressure) }]),
  ];
}
