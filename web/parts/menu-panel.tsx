/** Where everything else is. */
import type { Recording } from '../../protocol/recording.ts';
import { speech } from '../store/speech.ts';
import { Panel } from './panel.tsx';
import { panel } from './panels.ts';

const ENTRIES = [
  'rehearse',
  'type-in',
  'recordings',
  'sheet',
  'rig',
  'sensors',
  'second-screen',
  'settings',
] as const;

export function MenuPanel({ recording }: { readonly recording: Recording | null }) {
  const words = speech.value.wording.menu;
  return (
    <Panel title={words.title} testId="menu-panel">
      <nav class="menu">
        {ENTRIES.filter((name) => (name !== 'sheet' && name !== 'rig') || recording !== null).map(
          (name) => (
            <button
              key={name}
              type="button"
              data-testid={`open-${name}`}
              onClick={() => (panel.value = name)}
            >
              <b>{words.entries[name].title}</b>
              <span>{words.entries[name].text}</span>
            </button>
          ),
        )}
      </nav>
    </Panel>
  );
}
