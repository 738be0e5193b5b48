/** A record that is as it was recorded, for reports that are about something else. */
import type { Verified } from '../../protocol/verified.ts';

export const UNBROKEN: Verified = {
  recordingId: 7,
  links: 3,
  facts: 41,
  addedLater: 0,
  deleted: 0,
  hash: '0123456789abcdef'.repeat(4),
  broken: null,
};
