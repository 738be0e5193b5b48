/** What is concluded of a hold that several sensors watch: whom a pass waits for, and who has found something. */
import type { Rise } from '../analysis/conclusions.ts';
import type { SlowestVerdict } from '../analysis/verdict/slowest-verdict.ts';
import type { SaidConclusion } from './said-conclusion.ts';
import type { Speech } from './speech.ts';

/**
 * @param said of the one that is shown, as heard with the others
 * @param names of all sensors of the recording
 */
export function sayTogether(
  said: SaidConclusion,
  rise: Rise,
  together: SlowestVerdict | null,
  names: readonly string[],
  speech: Speech,
): SaidConclusion {
  if (together === null || rise.verdict !== 'undecided') return said;
  const words = speech.wording.hunt.sensors;
  const { verdict, finding, waiting } = together;
  if (finding.length > 0) {
    return {
      tone: 'warning',
      headline: speech.wording.verdict.names[verdict],
      sure: words.seenBy({ names: namesOf(finding, names) }),
      detail: said.detail,
    };
  }
  if (!rise.reservations.includes('other_sensor')) return said;
  const sure = words.awaits({ names: namesOf(waiting, names) });
  return { ...said, sure, detail: [...said.detail, words.atPump] };
}

export function namesOf(channels: readonly number[], names: readonly string[]): string {
  return channels.map((channel) => names[channel] ?? String(channel + 1)).join(', ');
}
