/** Where everything else is. */
import { speech } from '../store/speech.ts';
import type { Wording } from '../words/english.ts';
import { Panel } from './panel.tsx';
import { panel } from './panels.ts';

export type MenuEntry = keyof Wording['menu']['entries'];

/** @param entries those behind which there is something now, in order */
export function MenuPanel({ entries }: { readonly entries: readonly MenuEntry[] }) {
  const words = speech.value.wording.menu;
  return (
    <Panel title={words.title} testId="menu-panel">
      <nav class="menu">
        {entries.map((name) => (
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
