/** From facts and readings to what the report says. Pure: the same facts give the same report. */
import { type Sheet, sheetFromEntries } from '../../protocol/sheet.ts';
import { sheetOfSensor } from '../../protocol/sheet-of-sensor.ts';
import { judgedHolds } from '../analysis/judged-holds.ts';
import type { Passage } from '../analysis/passages.ts';
import { holdsTogether } from './holds-together.ts';
import { figuresFor } from './report-figures.ts';
import type { Hold, Report, ReportFacts, ReportPullDown, SensorReport } from './report-model.ts';
import type { ChannelFold, ReportReadings } from './report-readings.ts';

export function reportOf(facts: ReportFacts, readings: ReportReadings): Report {
  const marks = [...facts.marks].sort((a, b) => a.elapsedS - b.elapsedS || a.id - b.id);
  const sorted = { ...facts, marks };
  return {
    ...sorted,
    sheet: sheetFromEntries(facts.entries),
    sensors: holdsTogether(readings.channels().map((fold) => sensorReport(sorted, fold))),
  };
}

function sensorReport(facts: ReportFacts, fold: ChannelFold): SensorReport {
  const { marks, recording } = facts;
  const sheet = sheetOfSensor(facts.entries, recording, fold.channel);
  const passages = fold.passages(sheet, facts);
  const holds = holdsIn(passages, fold, sheet, facts);
  const last = passages.at(-1)?.conclusions ?? null;
  const stages = passages.map(({ conclusions: { stage }, untilS }) => ({ stage, untilS }));
  const gaps = fold.gaps();
  return {
    channel: fold.channel,
    identity: recording.sensors[fold.channel] ?? null,
    sheet,
    counts: fold.counts,
    latestS: fold.latestS,
    conclusions: last,
    stages,
    holds,
    holdList: last === null ? [] : fold.numbers(last, sheet, facts).holds,
    pullDowns: pullDownsIn(passages, fold, sheet, facts),
    cycles: fold.cycles(marks, facts.entries),
    hunt: isHunted(facts) ? fold.hunt(marks, facts.entries) : null,
    gaps,
    gapsNotKept: fold.gapsNotKept,
    figures: figuresFor({ facts, sheet, fold, gaps, stages, holds }),
  };
}

/** Whether anything but the whole system was held. */
function isHunted({ marks, entries }: ReportFacts): boolean {
  return (
    marks.some(({ kind }) => kind === 'stub_shut' || kind === 'part_seen') ||
    entries.some(({ fields }) => fields.sensorSees === 'section' || fields.sensorSees === 'stub')
  );
}

function holdsIn(
  passages: readonly Passage[],
  fold: ChannelFold,
  sheet: Sheet,
  facts: ReportFacts,
): Hold[] {
  return judgedHolds(passages).map((hold) => ({
    ...hold,
    numbers: fold.numbers(hold.conclusions, sheet, facts),
    together: null,
  }));
}

/** A pull-down goes on while it is at depth. */
function pullDownsIn(
  passages: readonly Passage[],
  fold: ChannelFold,
  sheet: Sheet,
  facts: ReportFacts,
): ReportPullDown[] {
  const untilS = new Map<number, number>();
  for (const { conclusions, untilS: endS } of passages) {
    const { stage, pullDownS } = conclusions;
    if (pullDownS === null || (stage.name !== 'pull_down' && stage.name !== 'at_depth')) continue;
    untilS.set(pullDownS, Math.max(untilS.get(pullDownS) ?? 0, endS));
  }
  return [...untilS].map(([fromS, toS]) => {
    return { fromS, toS, water: fold.water({ fromS, toS }, sheet, facts) };
  });
}
