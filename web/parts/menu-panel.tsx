/** Where everything else is. */
import type { Recording } from '../../protocol/recording.ts';
import { speech } from '../store/speech.ts';
import { Panel } from './panel.tsx';
import { isPanelOffered, panel, type PanelName } from './panels.ts';

const ENTRIES = [
  'rehearse',
  'type-in',
  'recordings',
  'new-job',
  'prepared',
  'sheet',
  'steps',
  'sign',
  'rig',
  'volume',
  'pump-check',
  'nitrogen',
  'cycles',
  'hunt',
  'sensors',
  'second-screen',
  'alerts',
  'alert-reach',
  'settings',
] as const;

/** Without one there is nothing in them. */
const OF_A_RECORDING: readonly PanelName[] = [
  'new-job',
  'sheet',
  'steps',
  'sign',
  'rig',
  'volume',
  'pump-check',
  'nitrogen',
  'cycles',
  'hunt',
  'alerts',
];

export function MenuPanel({ recording }: { readonly recording: Recording | null }) {
  const words = speech.value.wording.menu;
  return (
    <Panel title={words.title} testId="menu-panel">
      <nav class="menu">
        {ENTRIES.filter(isPanelOffered)
          .filter((name) => recording !== null || !OF_A_RECORDING.includes(name))
          .map((name) => (
            <button
              key={name}
              type="button"
              data-testid={`open-${name}`}
              onClick={() => (panel.value = name)}
            >
              <b>{words.entries[name].title}</b>
              <span>{words.entries[name].text}</span>
            </button>
          ))}
      </nav>
    </Panel>
  );
}
