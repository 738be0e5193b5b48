/** What the thread that prints is told of a report. */
import type { PrintQuery } from '../../../protocol/api.ts';
import type { ReceivedColumns } from '../../../protocol/reading.ts';
import type { RecordingJsonHead } from '../../../protocol/recording-json.ts';
import type { ReportFacts } from '../../../web/report/report-model.ts';

export interface PrintJob extends PrintQuery {
  /** Without the wording: functions can't be sent to a thread. */
  readonly facts: Omit<ReportFacts, 'speech'>;
  /** For the file with all facts. */
  readonly also: Pick<RecordingJsonHead, 'seenAlerts' | 'marksTakenBack' | 'signOffs'>;
  /** Wall-clock milliseconds since 1970 UTC. */
  readonly madeAtMs: number;
}

/** One page for a browser, or the file that is handed over. */
export type PrintedAs = 'page' | 'pdf';

/** First the job, then the readings in the order of the record, those that were taken back among them, then what to make of them. */
export type ToPrinter =
  | { readonly type: 'job'; readonly job: PrintJob }
  | { readonly type: 'readings'; readonly columns: ReceivedColumns }
  | { readonly type: 'print'; readonly as: PrintedAs };
