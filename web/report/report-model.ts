/** What a report says, before it is written: facts, and the conclusions drawn from them. */
import type { Job } from '../../protocol/job.ts';
import type { Mark } from '../../protocol/mark.ts';
import type { RecordedSensor, Recording } from '../../protocol/recording.ts';
import type { Sheet, SheetEntry } from '../../protocol/sheet.ts';
import type { SalvageNote } from '../../protocol/salvage-note.ts';
import type { SignOff } from '../../protocol/sign-off.ts';
import type { TakenBack } from '../../protocol/typed-in.ts';
import type { Verified } from '../../protocol/verified.ts';
import type { Conclusions, Stage } from '../analysis/conclusions.ts';
import type { Gap } from '../analysis/readings/gap-finder.ts';
import type { JudgedHold } from '../analysis/judged-holds.ts';
import type { LeakHunt } from '../analysis/hunt/leak-hunt.ts';
import type { HoldNumbers, Numbers } from '../analysis/numbers.ts';
import type { SlowestVerdict } from '../analysis/verdict/slowest-verdict.ts';
import type { TripleTold } from '../analysis/cycles/triple-told.ts';
import type { PullDownSpan, WaterFound } from '../analysis/flows/water-found.ts';
import type { FigurePicture } from '../figure/figure-picture.ts';
import type { Speech } from '../words/speech.ts';
import type { ChannelFold } from './report-readings.ts';

export interface ReportFacts {
  readonly recording: Recording;
  /** Of which job of it; all that follows is of that job. */
  readonly job: Job;
  readonly marks: readonly Mark[];
  /** Marks that were slips. */
  readonly marksTakenBack: readonly Mark[];
  /** Who answers for it; null: nobody has signed yet. */
  readonly signOff: SignOff | null;
  readonly entries: readonly SheetEntry[];
  /** Typed-in readings that were slips. */
  readonly takenBack: readonly TakenBack[];
  /** Whether its facts are as they were recorded. */
  readonly verified: Verified;
  /** Each time that a damaged file lost something of its recording, whichever job it was in. */
  readonly salvages: readonly SalvageNote[];
  /** Of the program that draws the conclusions. */
  readonly softwareVersion: string;
  /** Minutes that the wall clock at the site is ahead of UTC. */
  readonly offsetMinutes: number;
  /** In which language and units it is written. */
  readonly speech: Speech;
}

/** One hold, judged at its end. */
export interface Hold extends JudgedHold {
  readonly numbers: Numbers;
  /** By all sensors that watched the system; null where one alone did. */
  readonly together: SlowestVerdict | null;
}

/** A pull-down, and the water that it took away. */
export interface ReportPullDown extends PullDownSpan {
  readonly water: WaterFound;
}

export interface ReportStage {
  readonly stage: Stage;
  readonly untilS: number;
}

export interface SensorReport {
  readonly channel: number;
  /** Null where it did not make itself known. */
  readonly identity: RecordedSensor | null;
  /** The job sheet as it holds for this sensor. */
  readonly sheet: Sheet;
  readonly counts: ChannelFold['counts'];
  readonly latestS: number;
  /** At the last point of the judging grid, as on the screen. */
  readonly conclusions: Conclusions | null;
  readonly stages: readonly ReportStage[];
  /** The latest last; the verdict is its. */
  readonly holds: readonly Hold[];
  /** The same, as all that was seen tells them: what the gauge showed, and how long it was pumped before. */
  readonly holdList: readonly HoldNumbers[];
  readonly pullDowns: readonly ReportPullDown[];
  /** Evacuations with nitrogen between. */
  readonly cycles: TripleTold;
  /** Null where nobody held anything but the system. */
  readonly hunt: LeakHunt | null;
  readonly gaps: readonly Gap[];
  /** Gaps on top of those, of which no more is known. */
  readonly gapsNotKept: number;
  readonly figures: readonly FigurePicture[];
}

export interface Report extends ReportFacts {
  /** As it stands after all entries. */
  readonly sheet: Sheet;
  /** One for each sensor that gave readings. */
  readonly sensors: readonly SensorReport[];
}
