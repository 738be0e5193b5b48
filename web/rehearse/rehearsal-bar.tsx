/** A rehearsal is one, and what can be done about it: work it, call it, look at what it was. */
import type { Recording } from '../../protocol/recording.ts';
import { panel } from '../parts/panels.ts';
import { isLatestRehearsal, type Rehearsed, rehearsedOf } from '../store/rehearsed.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { may } from '../store/this-screen.ts';
import { sayCall, sayOutcome } from '../words/say-reveal.ts';
import { EndButtons } from './end-buttons.tsx';
import { unveil } from './unveil.ts';
import { WorkButtons } from './work-buttons.tsx';

interface RehearsalBarProps {
  readonly session: Session;
  readonly recording: Recording;
}

export function RehearsalBar({ session, recording }: RehearsalBarProps) {
  const words = speech.value.wording.rehearse.bar;
  const rehearsed = rehearsedOf(recording);
  const latest = isLatestRehearsal(recording, session.recordings.value);
  // Whoever assists works the rig by the marks; how it runs is for whoever began it.
  const isOwn = may('owner');
  const isWorked = recording.open && latest && isOwn;
  return (
    <section class="rehearsal" aria-label={words.label} data-testid="rehearsal-bar">
      <strong>{words.name}</strong>
      {isWorked ? (
        <WorkButtons session={session} wish={rehearsed.wish} />
      ) : (
        rehearsed.reveal === null && !recording.open && <span>{words.ended}</span>
      )}
      {rehearsed.reveal !== null ? (
        <Revealed rehearsed={rehearsed} />
      ) : (
        latest && isOwn && <Hidden rehearsed={rehearsed} recording={recording} />
      )}
      {isWorked && <EndButtons session={session} wish={rehearsed.wish} />}
      {!recording.open && isOwn && (
        <button type="button" data-testid="another" onClick={() => (panel.value = 'rehearse')}>
          {words.another}
        </button>
      )}
    </section>
  );
}

interface HiddenProps {
  readonly rehearsed: Rehearsed;
  readonly recording: Recording;
}

function Hidden({ rehearsed: { call }, recording }: HiddenProps) {
  const words = speech.value.wording.rehearse.bar;
  if (call === null) {
    return (
      <button
        type="button"
        class="urgent"
        data-testid="call"
        aria-haspopup="dialog"
        onClick={() => (panel.value = 'call')}
      >
        <span class="roomy">{words.call.long}</span>
        <span class="tight">{words.call.short}</span>
      </button>
    );
  }
  return (
    <>
      <span class="roomy" data-testid="called">
        {sayCall(call, speech.value)}
      </span>
      <button
        type="button"
        class="urgent"
        data-testid="reveal"
        onClick={() => void unveil(recording, {})}
      >
        {words.reveal}
      </button>
    </>
  );
}

function Revealed({ rehearsed: { call, reveal } }: { readonly rehearsed: Rehearsed }) {
  const words = speech.value.wording.rehearse.bar;
  if (reveal === null) return null;
  return (
    <>
      <p data-testid="revealed" role="status">
        {sayOutcome(call, reveal.cause, speech.value).headline}
      </p>
      <button
        type="button"
        data-testid="what-told"
        aria-haspopup="dialog"
        onClick={() => (panel.value = 'reveal')}
      >
        {words.whatTold}
      </button>
    </>
  );
}
