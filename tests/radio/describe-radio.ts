/** What the radio must do with either host library, shown on the library's own, whole stack. */
import { describeBackfill } from './describe-backfill.ts';
import { describeBreakdowns } from './describe-breakdowns.ts';
import { describeConnection } from './describe-connection.ts';
import { describeLoss } from './describe-loss.ts';
import { describeMalformed } from './describe-malformed.ts';
import { describeRefusals } from './describe-refusals.ts';
import { describeStandard } from './describe-standard.ts';

export function describeRadio(library: string): void {
  describeConnection(library);
  describeLoss(library);
  describeRefusals(library);
  describeBackfill(library);
  describeMalformed(library);
  describeStandard(library);
  describeBreakdowns(library);
}
