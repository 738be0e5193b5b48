/** What one sensor measured, and what follows from it. */
import type { SensorLabel } from '../../protocol/sensor-label.ts';
import { drawFigure } from '../figure/draw-figure.ts';
import { FLAG_ROWS } from '../figure/draw-flags.ts';
import type { FigurePicture } from '../figure/figure-picture.ts';
import { sayDuration } from '../words/say-duration.ts';
import {
  sayFurtherGaps,
  sayGap,
  sayGapLength,
  sayReadingCount,
  sayRecognised,
} from '../words/say-report.ts';
import { saySetting } from '../words/say-pressure.ts';
import { sayOwnName, sayPlace } from '../words/say-sensor.ts';
import { saySheetValue } from '../words/say-sheet-value.ts';
import { sayWallTime } from '../words/say-wall-time.ts';
import {
  type Block,
  type Fact,
  factTable,
  listTable,
  paragraph,
  section,
  type Section,
} from './report-document.ts';
import { momentCells, momentColumns } from './report-clock.ts';
import type { Report, SensorReport } from './report-model.ts';
import { cycleSections, huntSections } from './cycle-sections.ts';
import { holdsSections, numbersSections, waterSections } from './number-sections.ts';
import { verdictSection } from './verdict-section.ts';

/** The longest gaps are listed, so many of them; a bad radio makes thousands. */
const MOST_GAPS_LISTED = 30;

export function sensorSections(report: Report, sensor: SensorReport): Section[] {
  return [
    verdictSection(report, sensor),
    curvesSection(report, sensor),
    ...numbersSections(report, sensor),
    ...holdsSections(report, sensor),
    ...waterSections(report, sensor),
    ...cycleSections(report, sensor),
    ...huntSections(report, sensor),
    stagesSection(report, sensor),
    gapsSection(report, sensor),
    identitySection(report, sensor),
  ];
}

function curvesSection({ marks, speech }: Report, { figures }: SensorReport): Section {
  const words = speech.wording.report;
  const poles = marks.length > FLAG_ROWS ? words.poles : '';
  return section(words.curves, ...figures.map(figureBlock), paragraph(poles, 'quiet'));
}

function figureBlock(picture: FigurePicture): Block {
  return { kind: 'figure', title: picture.title, svg: drawFigure(picture).text };
}

function stagesSection(report: Report, { stages }: SensorReport): Section {
  const { speech } = report;
  const words = speech.wording.report;
  const { columns } = words;
  const headings = [
    columns.stage,
    ...momentColumns(report, columns.began, columns.clock),
    columns.lasted,
    columns.knownBy,
  ];
  // What was before the job is another one's.
  const { fromS } = report.job;
  const rows = stages.map(({ stage, untilS }) => [
    speech.wording.stages.names[stage.name],
    ...momentCells(report, Math.max(stage.sinceS, fromS)),
    sayDuration(untilS - Math.max(stage.sinceS, fromS)),
    sayRecognised(stage, speech),
  ]);
  return section(words.stages, listTable(headings, rows));
}

function gapsSection(report: Report, { gaps, gapsNotKept }: SensorReport): Section {
  const { speech } = report;
  const words = speech.wording.report;
  const { columns } = words;
  if (gaps.length === 0) return section(words.gaps, paragraph(words.noGaps));
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
    sayGapLength(length(gap), speech),
    sayGap(gap, speech),
  ]);
  return section(
    words.gaps,
    listTable(headings, rows),
    paragraph(
      further.length === 0 ? '' : sayFurtherGaps(further.length, furtherS, gapsNotKept, speech),
    ),
  );
}

function identitySection(report: Report, sensor: SensorReport): Section {
  const { speech } = report;
  const words = speech.wording.report;
  const names = words.identity;
  const { identity, sheet } = sensor;
  const told = (text: string | null) => (text === null || text === '' ? words.unknown : text);
  return section(
    words.sensor,
    factTable([
      ...(identity === null
        ? [{ name: names.name, value: words.unknown }]
        : [
            ...labelFacts(report, identity.label),
            { name: names.name, value: told(sayOwnName(identity, speech)) },
            { name: names.manufacturer, value: told(identity.manufacturer) },
            { name: names.model, value: told(identity.model) },
            { name: names.serial, value: told(identity.serial) },
            { name: names.firmware, value: told(identity.firmware) },
            { name: names.id, value: identity.id },
            {
              name: words.calibrated,
              value: identity.calibratedOn ?? speech.wording.sheet.notEntered,
            },
          ]),
      {
        name: speech.wording.sheet.names.sensorSees,
        value: saySheetValue(sheet, 'sensorSees', speech),
      },
      { name: words.readings, value: sayReadingCount(sensor.counts, speech) },
    ]),
  );
}

/** What the technician said of it comes before what it says of itself. */
function labelFacts(report: Report, label: SensorLabel | null): Fact[] {
  const { recording, speech, offsetMinutes } = report;
  const names = speech.wording.report.label;
  if (label === null) return [];
  const { name, displayStepPa, givenAtMs } = label;
  const said = sayWallTime(givenAtMs, offsetMinutes, speech);
  return [
    ...(name === '' ? [] : [{ name: names.name, value: name }]),
    { name: names.place, value: sayPlace(label, recording, said, speech) },
    ...(displayStepPa === null
      ? []
      : [{ name: names.displayStep, value: saySetting(displayStepPa, speech) }]),
  ];
}
