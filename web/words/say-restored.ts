/** What became of a backup that was restored. */
import type { RestoredRecording } from '../../protocol/restored.ts';
import type { Speech } from './speech.ts';

/** '3 recordings were restored. 2 are here already. …' */
export function sayRestored(recordings: readonly RestoredRecording[], { wording }: Speech): string {
  const words = wording.recordings.restored;
  const count = (is: (one: RestoredRecording) => boolean) => recordings.filter(is).length;
  const isAdded = ({ outcome }: RestoredRecording) =>
    outcome === 'as_it_was' || outcome === 'added';
  const already = count(({ outcome }) => outcome === 'there_already');
  const altered = count((one) => isAdded(one) && !one.held);
  const refused = recordings.filter(({ outcome }) => outcome === 'refused');
  return [
    words.added({ count: count(isAdded) }),
    ...(already > 0 ? [words.already({ count: already })] : []),
    ...(altered > 0 ? [words.altered({ count: altered })] : []),
    ...refused.map(({ recordingIdThere, detail }) =>
      words.refused({ number: String(recordingIdThere), why: detail }),
    ),
  ].join(' ');
}
