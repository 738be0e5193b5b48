/** Where everything else is. */
import type { Recording } from '../../protocol/recording.ts';
import { SECOND_SCREEN } from '../words/say-second-screen.ts';
import { ALERT_WORDS, REACH_WORDS } from '../words/say-reach.ts';
import { SENSOR_WORDS } from '../words/say-sensor.ts';
import { SETTINGS_WORDS } from '../words/say-settings.ts';
import { TYPE_IN, TYPE_IN_MENU } from '../words/say-typed-in.ts';
import { Panel } from './panel.tsx';
import { panel, type PanelName } from './panels.ts';

/** Without one there is nothing in them. */
const OF_A_RECORDING: readonly PanelName[] = ['sheet', 'rig', 'alerts'];

export function MenuPanel({ recording }: { readonly recording: Recording | null }) {
  const entries: { name: PanelName & string; title: string; text: string }[] = [
    { name: 'rehearse', title: 'Rehearse', text: 'A simulated job, at any speed, cause hidden.' },
    { name: 'type-in', title: TYPE_IN, text: TYPE_IN_MENU },
    {
      name: 'recordings',
      title: 'Recordings',
      text: 'What was recorded before, and its readings.',
    },
    {
      name: 'sheet',
      title: 'Job sheet',
      text: 'Site, target, hold, pass rule, what the sensor sees.',
    },
    {
      name: 'rig',
      title: 'Rig',
      text: 'Pump, hoses and cores, and how fast they should pull down.',
    },
    { name: 'sensors', title: SENSOR_WORDS.title, text: SENSOR_WORDS.menu },
    { name: 'second-screen', title: SECOND_SCREEN.title, text: SECOND_SCREEN.menu },
    { name: 'alerts', title: ALERT_WORDS.title, text: ALERT_WORDS.menu },
    { name: 'alert-reach', title: REACH_WORDS.title, text: REACH_WORDS.menu },
    { name: 'settings', title: SETTINGS_WORDS.title, text: SETTINGS_WORDS.menu },
  ];
  return (
    <Panel title="Menu" testId="menu-panel">
      <nav class="menu">
        {entries
          .filter((entry) => recording !== null || !OF_A_RECORDING.includes(entry.name))
          .map((entry) => (
            <button
              key={entry.name}
              type="button"
              data-testid={`open-${entry.name}`}
              onClick={() => (panel.value = entry.name)}
            >
              <b>{entry.title}</b>
              <span>{entry.text}</span>
            </button>
          ))}
      </nav>
    </Panel>
  );
}
