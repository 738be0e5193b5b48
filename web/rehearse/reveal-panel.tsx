/** What it was, which part of the curve told and from when on, and how the work went. */
import type { Recording } from '../../protocol/recording.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { rehearsedOf } from '../store/rehearsed.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { sayRehearsed } from '../words/say-rehearsal.ts';
import { listRevealNumbers, sayOutcome, sayWhenItTold } from '../words/say-reveal.ts';
import { begin } from './begin.ts';
import { DebriefList } from './debrief-list.tsx';
import { firstPumpOnS } from './told-curve.ts';
import { ToldChart } from './told-chart.tsx';

interface RevealPanelProps {
  readonly session: Session;
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function RevealPanel({ session, followed, recording }: RevealPanelProps) {
  const { rehearse, reveal: words } = speech.value.wording;
  const rehearsed = rehearsedOf(recording);
  const { reveal, call, wish } = rehearsed;
  if (reveal === null) return null;
  const originS = firstPumpOnS(followed.marks.value);
  const outcome = sayOutcome(call, reveal.cause, speech.value);
  return (
    <Panel title={words.title} testId="reveal-panel">
      <section class={`say say-${outcome.tone}`} data-testid="outcome">
        <h2>{outcome.headline}</h2>
        {outcome.detail.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </section>
      {/* What a job was comes with it, and jobs are told in English. */}
      <p data-testid="truth" lang="en">
        {reveal.truth}
      </p>
      <h2>{words.tells}</h2>
      <p data-testid="tells" lang="en">
        {reveal.tells}
      </p>
      <p data-testid="told">
        {sayWhenItTold(reveal, call?.elapsedS ?? null, originS, speech.value)}
      </p>
      <ToldChart followed={followed} rehearsed={rehearsed} />
      <h2>{words.work}</h2>
      <DebriefList followed={followed} rehearsed={rehearsed} originS={originS} />
      <h2>{words.numbers}</h2>
      <dl class="facts" data-testid="reveal-numbers">
        {listRevealNumbers(reveal, speech.value).map(({ name, value }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
        {wish !== null && (
          <div>
            <dt>{words.job}</dt>
            <dd>{sayRehearsed(wish.name, wish.seed, speech.value)}</dd>
          </div>
        )}
      </dl>
      <div class="row">
        <button
          type="button"
          class="urgent"
          data-testid="another-now"
          onClick={() => (panel.value = 'rehearse')}
        >
          {rehearse.bar.another}
        </button>
        {wish !== null && (
          <button type="button" data-testid="same-again" onClick={() => void begin(session, wish)}>
            {words.again}
          </button>
        )}
        <button type="button" data-testid="open-results" onClick={() => (panel.value = 'results')}>
          {rehearse.results}
        </button>
      </div>
    </Panel>
  );
}
