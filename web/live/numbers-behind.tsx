/** The pass rule beside the verdict, and the numbers behind it: one click away. */
import type { Rise } from '../analysis/conclusions.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { listHolds } from '../words/list-holds.ts';
import { listVerdictNumbers } from '../words/list-verdict-numbers.ts';
import type { NumberGroup } from '../words/number-row.ts';
import { sayRuleBeside } from '../words/say-rule-beside.ts';

interface BehindProps {
  readonly followed: FollowedRecording;
  readonly rise: Rise;
}

/** In smaller letters than the physics, and after it: a rule that passes never outshouts a leak. */
export function RuleBeside({ followed, rise }: BehindProps) {
  const byRule = followed.numbers.value?.rise?.byRule;
  if (byRule === undefined) return null;
  const { headline, name, remark } = sayRuleBeside(byRule, rise.verdict, speech.value);
  return (
    <p class="rule-beside" data-testid="rule">
      <b>{headline}</b> <span>({name}).</span> {remark}
    </p>
  );
}

export function NumbersBehind({ followed, rise }: BehindProps) {
  const numbers = followed.numbers.value;
  if (numbers === null) return null;
  const groups = listVerdictNumbers(rise, numbers, followed.sheet.value, speech.value);
  const holds = listHolds(numbers.holds, speech.value);
  return (
    <details class="numbers" data-testid="numbers">
      <summary>{speech.value.wording.numbers.summary}</summary>
      {groups.map((group) => (
        <Group key={group.title} group={group} />
      ))}
      {holds !== null && <Group group={holds} />}
      <p class="quiet">{speech.value.wording.numbers.intervals}</p>
    </details>
  );
}

function Group({ group }: { readonly group: NumberGroup }) {
  return (
    <>
      <h3>{group.title}</h3>
      <table>
        <tbody>
          {group.rows.map((row) => (
            <tr key={row.name}>
              <th scope="row">{row.name}</th>
              <td>{row.value}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {group.notes.map((note) => (
        <p key={note} class="quiet">
          {note}
        </p>
      ))}
    </>
  );
}
