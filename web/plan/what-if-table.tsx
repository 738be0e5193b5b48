/** The same system on other gear: a small table, and the expected curves laid over one another. */
import { useState } from 'preact/hooks';
import { speech } from '../store/speech.ts';
import { saySetting } from '../words/say-pressure.ts';
import { FIRST_DEPTH_PA, sayLitresPerMin, sayShortTime } from '../words/say-rig.ts';
import { effectiveSpeed } from './effective-speed.ts';
import type { PlannedRig } from './planned-rig.ts';
import { WhatIfCurves } from './what-if-curves.tsx';
import { compareChanges } from './what-if.ts';

interface WhatIfProps {
  readonly rig: PlannedRig;
  readonly targetPa: number;
}

/** Several curves cost some tenths of a second: reckoned when somebody looks. */
export function WhatIf(props: WhatIfProps) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details
      data-testid="what-if"
      open={isOpen}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>{speech.value.wording.planning.whatIf.title}</summary>
      {isOpen && <Compared {...props} />}
    </details>
  );
}

function Compared({ rig, targetPa }: WhatIfProps) {
  const words = speech.value.wording.planning.whatIf;
  const rows = comparedLately(rig, targetPa);
  const times = [FIRST_DEPTH_PA, targetPa].map((pressurePa) =>
    speech.value.wording.rig.timeTo({ pressure: saySetting(pressurePa, speech.value) }),
  );
  return (
    <div class="what-if">
      <WhatIfCurves curves={rows.map(({ curve }) => curve)} targetPa={targetPa} />
      <table data-testid="what-if-table">
        <thead>
          <tr>
            {[words.gear, ...times, words.speed].map((heading) => (
              <th key={heading} scope="col">
                {heading}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ change, rig: changed, firstS, targetS }, at) => (
            <tr key={change}>
              <th scope="row">
                <b>{at + 1}</b> {change === 'as_entered' ? words.asEntered : words.changes[change]}
              </th>
              <td>{sayShortTime(firstS, speech.value)}</td>
              <td>{sayShortTime(targetS, speech.value)}</td>
              <td>
                {sayLitresPerMin(effectiveSpeed(changed, targetPa)?.speedM3PerS ?? 0, speech.value)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="quiet">{words.help}</p>
    </div>
  );
}

let latest: { readonly key: string; readonly rows: ReturnType<typeof compareChanges> } | null =
  null;

function comparedLately(rig: PlannedRig, targetPa: number) {
  const key = JSON.stringify([rig, targetPa]);
  if (latest?.key !== key) latest = { key, rows: compareChanges(rig, targetPa) };
  return latest.rows;
}
