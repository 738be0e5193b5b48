/** What was done well, too early, too late, and what was missed. */
import type { FollowedRecording } from '../store/followed-recording.ts';
import type { Rehearsed } from '../store/rehearsed.ts';
import { speech } from '../store/speech.ts';
import { GRADES, sayFinding, sayFindingMoment } from '../words/say-finding.ts';

interface DebriefListProps {
  readonly followed: FollowedRecording;
  readonly rehearsed: Rehearsed;
  readonly originS: number;
}

export function DebriefList({ followed, rehearsed, originS }: DebriefListProps) {
  const { call, reveal, wish } = rehearsed;
  if (reveal === null) return null;
  // Whose hands they were is not known of a rehearsal that began elsewhere: then no word about them.
  const helped = wish?.helper ?? true;
  const findings = followed.debrief({ call, reveal, helped });
  const { debrief: words, reveal: further } = speech.value.wording;
  return (
    <div class="debrief" data-testid="debrief">
      {GRADES.map((grade) => {
        const own = findings.filter((finding) => finding.grade === grade);
        return own.length === 0 ? null : (
          <section key={grade} class={`grade grade-${grade}`}>
            <h3>{words.grades[grade]}</h3>
            <ul>
              {own.map((finding) => {
                const moment = sayFindingMoment(finding, originS);
                return (
                  <li key={`${finding.kind} ${finding.atS ?? ''}`} data-finding={finding.kind}>
                    {sayFinding(finding, speech.value)}
                    {moment !== null && <small>{moment}</small>}
                  </li>
                );
              })}
            </ul>
          </section>
        );
      })}
      {wish?.helper === true && <p class="quiet">{further.helped}</p>}
    </div>
  );
}
