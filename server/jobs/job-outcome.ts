/** What came out of a job, as its report draws it: as far as a list tells it, and its curve. Pure. */
import type { Job } from '../../protocol/job.ts';
import { entriesOf, isWithin } from '../../protocol/job.ts';
import type { JobCurve, JobOutcome } from '../../protocol/job-card.ts';
import type { Mark } from '../../protocol/mark.ts';
import type { Recording } from '../../protocol/recording.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import { sheetOfSensor } from '../../protocol/sheet-of-sensor.ts';
import { judgedHolds } from '../../web/analysis/judged-holds.ts';
import type { Passage } from '../../web/analysis/passages.ts';
import type { ChannelFold, ReportReadings } from '../../web/report/report-readings.ts';

interface JudgedFacts {
  readonly recording: Recording;
  readonly job: Job;
  readonly marks: readonly Mark[];
  readonly entries: readonly SheetEntry[];
}

/** @param readings those of the job alone */
export function jobOutcomes(facts: JudgedFacts, readings: ReportReadings): JobOutcome[] {
  return readings.channels().map((fold) => outcomeOf(facts, fold));
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

function passagesOf({ recording, job, marks, entries }: JudgedFacts, fold: ChannelFold): Passage[] {
  const ofJob = entriesOf(job, entries);
  return fold.passages(sheetOfSensor(ofJob, recording, fold.channel), {
    marks: marks.filter(({ elapsedS }) => isWithin(job, elapsedS)),
    entries: ofJob,
  });
}

function outcomeOf(facts: JudgedFacts, fold: ChannelFold): JobOutcome {
  const passages = passagesOf(facts, fold);
  const rise = judgedHolds(passages).at(-1)?.rise ?? null;
  const depths = passages.flatMap(({ conclusions }) => conclusions.pressurePa ?? []);
  return {
    channel: fold.channel,
    verdict: rise?.verdict ?? null,
    heldS: rise?.heldS ?? null,
    lowestPa: depths.length === 0 ? null : Math.min(...depths),
  };
}
