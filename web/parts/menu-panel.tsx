/** Where everything else is. */
import type { Recording } from '../../protocol/recording.ts';
import { SECOND_SCREEN } from '../words/say-second-screen.ts';
import { SENSOR_WORDS } from '../words/say-sensor.ts';
import { TYPE_IN, TYPE_IN_MENU } from '../words/say-typed-in.ts';
import { Panel } from './panel.tsx';
import { panel, type PanelName } from './panels.ts';

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
    {
      name: 'settings',
      title: 'Alerts, units and look',
      text: 'Sound, notifications, day or night.',
    },
  ];
  return (
    <Panel title="Menu" testId="menu-panel">
      <nav class="menu">
        {entries
          .filter((entry) => (entry.name !== 'sheet' && entry.name !== 'rig') || recording !== null)
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
