/** What it really was, which part of the curve told, and what was done well, too early or not at all. */
import { useEffect, useState } from 'preact/hooks';
import type { Recording } from '../../protocol/recording.ts';
import { debrief } from '../analysis/debrief.ts';
import { revealRehearsal } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { choices } from '../store/choices.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { CAUSE_WORDS, sayCalled, sayTold } from '../words/say-call.ts';
import { GRADE_NAMES, sayFinding } from '../words/say-finding.ts';
import { sayTruthNumbers } from '../words/say-reveal.ts';
import { atHand, learn } from './at-hand.ts';

interface RevealPanelProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function RevealPanel({ followed, recording }: RevealPanelProps) {
  const { call, reveal, start } = atHand(recording);
  const [asked, setAsked] = useState(reveal !== null);
  useEffect(() => {
    if (asked) return;
    setAsked(true);
    void tell(revealRehearsal({})).then((told) => {
      if (told === null) panel.value = null;
      else learn(recording, { reveal: told });
    });
  }, [asked]);
  if (reveal === null) {
    return (
      <Panel title="What it was" testId="reveal-panel">
        <p>Asking the bridge…</p>
      </Panel>
    );
  }
  const unit = choices.value.pressure;
  // What was not begun on this page was perhaps worked by a helper: then only the call is judged.
  const findings = debrief({
    history: followed.history,
    marks: followed.marks.value,
    sheet: followed.sheet.value,
    call,
    reveal,
    helped: start?.helper ?? true,
  });
  return (
    <Panel title="What it was" testId="reveal-panel">
      <h2 data-testid="truth">{CAUSE_WORDS[reveal.cause].name}</h2>
      {call !== null && (
        <p class="called" data-testid="called">
          {sayCalled(call, reveal)}
        </p>
      )}
      <p>{reveal.truth}</p>
      <h2>What told</h2>
      <p data-testid="tells">{reveal.tells}</p>
      <p data-testid="told">{sayTold(reveal.toldS)}</p>
      <p class="quiet">{sayTruthNumbers(reveal, unit)}</p>
      <h2>Looking back</h2>
      <ul class="findings" data-testid="findings">
        {findings.map((finding, place) => (
          <li key={place} data-grade={finding.grade}>
            <b>{GRADE_NAMES[finding.grade]}</b> {sayFinding(finding, unit)}
          </li>
        ))}
      </ul>
      <div class="choices">
        <button type="button" class="urgent" onClick={() => (panel.value = 'rehearse')}>
          Another one
        </button>
        <button type="button" data-testid="show-results" onClick={() => (panel.value = 'results')}>
          How my calls have gone
        </button>
      </div>
    </Panel>
  );
}
