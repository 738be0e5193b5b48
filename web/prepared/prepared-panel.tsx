/** Job sheets that are filled in before there is anything to record. */
import { useEffect, useState } from 'preact/hooks';
import type { PreparedSheet } from '../../protocol/prepared-sheet.ts';
import type { Recording } from '../../protocol/recording.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { may } from '../store/this-screen.ts';
import { sayPrepared } from '../words/say-prepared.ts';
import { discard, lookForPrepared, preparedSheets, takeOver } from './prepared-list.ts';
import { NewPrepared } from './new-prepared.tsx';
import { takeToHand } from './sheet-at-hand.ts';

interface PreparedPanelProps {
  /** What could take one over; null: nothing is recorded. */
  readonly followed: FollowedRecording | null;
  readonly recording: Recording | null;
}

export function PreparedPanel({ followed, recording }: PreparedPanelProps) {
  const words = speech.value.wording.prepared;
  const [isNew, setNew] = useState(false);
  useEffect(() => void lookForPrepared(), []);
  if (isNew) {
    return (
      <Panel title={words.newOne} testId="prepared-panel">
        <NewPrepared done={() => setNew(false)} />
      </Panel>
    );
  }
  return (
    <Panel title={words.title} testId="prepared-panel">
      <p class="quiet">{words.help}</p>
      <ul class="recordings">
        {preparedSheets.value.map((sheet) => (
          <li key={sheet.prepared} data-testid={`prepared-${sheet.prepared}`}>
            <div>
              <b>{sayPrepared(sheet, speech.value)}</b>
            </div>
            {followed !== null && recording !== null && (
              <button
                type="button"
                data-testid={`take-over-${sheet.prepared}`}
                onClick={() => {
                  void takeOver(sheet, followed, recording).then((isTaken) => {
                    if (isTaken) panel.value = null;
                  });
                }}
              >
                {words.takeOver}
              </button>
            )}
            <button
              type="button"
              data-testid={`change-${sheet.prepared}`}
              onClick={() => {
                takeToHand(sheet);
                panel.value = { prepared: 'sheet' };
              }}
            >
              {words.change}
            </button>
            {may('owner') && <Discard sheet={sheet} />}
          </li>
        ))}
      </ul>
      <button type="button" class="urgent" data-testid="new-prepared" onClick={() => setNew(true)}>
        {words.newOne}
      </button>
    </Panel>
  );
}

/** It can't be undone: asked first. */
function Discard({ sheet }: { readonly sheet: PreparedSheet }) {
  const words = speech.value.wording.prepared;
  const [isAsked, setAsked] = useState(false);
  return (
    <button
      type="button"
      onClick={() => {
        if (isAsked) void discard(sheet);
        setAsked(!isAsked);
      }}
    >
      {isAsked ? words.reallyDiscard : words.discard}
    </button>
  );
}
