/** What came out of a job, as its report draws it: as far as a list tells it, and its curve. Pure. */
import type { Job } from '../../protocol/job.ts';
import { entriesOf, isWithin } from '../../protocol/job.ts';
import type { JobCurve, JobOutcome } from '../../protocol/job-card.ts';
import type { Mark } from '../../protocol/mark.ts';
import type { Recording } from '../../protocol/recording.ts';
import type { Sheet, SheetEntry } from '../../protocol/sheet.ts';
import { sheetOfSensor } from '../../protocol/sheet-of-sensor.ts';
import { judgedHolds } from '../../web/analysis/judged-holds.ts';
import type { Passage } from '../../web/analysis/passages.ts';
import {
  heardTogether,
  sensorSaid,
  slowestVerdict,
} from '../../web/analysis/verdict/slowest-verdict.ts';
import { seesSystem } from '../../web/analysis/verdict/verdict.ts';
import type { ChannelFold, ReportReadings } from '../../web/report/report-readings.ts';

interface JudgedFacts {
  readonly recording: Recording;
  readonly job: Job;
  readonly marks: readonly Mark[];
  readonly entries: readonly SheetEntry[];
}

/** @param readings those of the job alone */
export function jobOutcomes(facts: JudgedFacts, readings: ReportReadings): JobOutcome[] {
  const told = readings.channels().map((fold) => {
    const passages = passagesOf(facts, fold);
    const rise = judgedHolds(passages).at(-1)?.rise ?? null;
    return { channel: fold.channel, passages, rise, sheet: sheetFor(facts, fold) };
  });
  const watching = told.filter(({ sheet }) => seesSystem(sheet));
  const together =
    watching.length < 2
      ? null
      : slowestVerdict(
          watching.map(({ channel, rise, sheet }) => sensorSaid(channel, rise, sheet)),
        );
  return told.map(({ channel, passages, rise }) => {
    const depths = passages.flatMap(({ conclusions }) => conclusions.pressurePa ?? []);
    return {
      channel,
      verdict: rise === null ? null : heardTogether(rise, together).verdict,
      heldS: rise?.heldS ?? null,
      lowestPa: depths.length === 0 ? null : Math.min(...depths),
    };
  });
}

/** For drawing, with the moments at which two curves may be laid over each other. */
export function jobCurves(facts: JudgedFacts, readings: ReportReadings): JobCurve[] {
  return readings.channels().map((fold) => {
    const passages = passagesOf(facts, fold);
    const fromS = facts.job.fromS;
    const { pieces } = fold.curve.drawn({ fromS, toS: fold.latestS }, fold.gaps());
    return {
      channel: fold.channel,
      pullDownS:
        passages.find(({ conclusions }) => conclusions.pullDownS !== null)?.conclusions.pullDownS ??
        null,
      isolatedS: judgedHolds(passages).at(-1)?.rise.sinceS ?? null,
      pieces: pieces.map((piece) => ({
        elapsedS: piece.map(({ elapsedS }) => elapsedS),
        pressurePa: piece.map(({ pressurePa }) => pressurePa),
      })),
    };
  });
}

function passagesOf(facts: JudgedFacts, fold: ChannelFold): Passage[] {
  const { job, marks, entries } = facts;
  return fold.passages(sheetFor(facts, fold), {
    marks: marks.filter(({ elapsedS }) => isWithin(job, elapsedS)),
    entries: entriesOf(job, entries),
  });
}

function sheetFor({ recording, job, entries }: JudgedFacts, { channel }: ChannelFold): Sheet {
  return sheetOfSensor(entriesOf(job, entries), recording, channel);
}
