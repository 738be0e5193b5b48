/** What the system holds: its lines, coils, sections and the valves between them, entered as a whole. */
import { useRef, useState } from 'preact/hooks';
import { Panel } from '../parts/panel.tsx';
import type { OpenSheet } from '../sheet/open-sheet.ts';
import { speech } from '../store/speech.ts';
import { readDraft } from './read-draft.ts';
import { enteredMap, rekeyed } from './renamed-sections.ts';
import { unusualRow } from './unusual-row.ts';
import { draftOf, type VolumeDraft } from './volume-draft.ts';
import { Choose } from './row-parts.tsx';
import { PRESETS, presetDraft } from './volume-presets.ts';
import { VolumeResult } from './volume-result.tsx';
import { JoinRows, SectionRows } from './volume-section-rows.tsx';
import { TubeRows, VesselRows } from './volume-part-rows.tsx';

export function VolumePanel({ open }: { readonly open: OpenSheet }) {
  const [spoken] = useState(() => speech.peek());
  const [draft, setDraft] = useState(() => draftOf(open.sheet.peek(), spoken));
  const [wrong, setWrong] = useState<string | null>(null);
  /** Far from usual: entered once somebody says that it is so. */
  const [unusual, setUnusual] = useState<string | null>(null);
  const result = useRef<HTMLDivElement>(null);
  const { planning, sheet } = speech.value.wording;
  const words = planning.volume;
  const change = (part: Partial<VolumeDraft>) => {
    setWrong(null);
    setUnusual(null);
    setDraft({ ...draft, ...part });
  };
  const enter = (event: Event, isSaidSo = false) => {
    event.preventDefault();
    const read = readDraft(draft);
    setUnusual(null);
    if (read.ok) {
      const found = isSaidSo ? null : unusualRow(read.facts, speech.peek());
      if (found !== null) {
        const name = `${words[found.list]} ${found.row + 1}`;
        setUnusual(words.unusual({ name, said: found.said }));
        return;
      }
      void open.enter(enteredMap(draft, read.facts, open.sheet.peek())).then((saved) => {
        if (!saved) return;
        setDraft((typed) => rekeyed(typed, draft));
        // What follows from it stands above.
        result.current?.scrollIntoView({ block: 'center' });
      });
      return;
    }
    const row = `${words[read.list]} ${read.row + 1}`;
    setWrong(sheet.wrongFor({ name: row, why: words.reasons[read.reason] }));
  };
  return (
    <Panel title={words.title} testId="volume-panel">
      {open.above}
      <div role="status" ref={result}>
        <VolumeResult
          sheet={open.sheet.value}
          takeOver={(volumeM3) => void open.enter({ volumeM3 })}
        />
      </div>
      <Presets fill={(preset) => change(presetDraft(preset, words.sectionNames))} />
      <form class="volume-form" onSubmit={enter}>
        <SectionRows draft={draft} change={(sections) => change({ sections })} />
        <TubeRows draft={draft} change={(tubes) => change({ tubes })} />
        <VesselRows draft={draft} change={(vessels) => change({ vessels })} />
        <JoinRows draft={draft} change={(joins) => change({ joins })} />
        {wrong !== null && (
          <p class="wrong" role="alert">
            {wrong}
          </p>
        )}
        {unusual !== null && (
          <div class="unusual" role="alert" data-testid="unusual">
            <p class="wrong">{unusual}</p>
            <button type="button" data-testid="it-is-so" onClick={(event) => enter(event, true)}>
              {words.itIsSo}
            </button>
          </div>
        )}
        <button type="submit" class="urgent">
          {words.enter}
        </button>
      </form>
      <p class="quiet">{words.source}</p>
    </Panel>
  );
}

function Presets({ fill }: { readonly fill: (preset: (typeof PRESETS)[number]) => void }) {
  const [first] = PRESETS;
  const [chosen, setChosen] = useState<(typeof PRESETS)[number]>(first);
  const words = speech.value.wording.planning.volume.presets;
  return (
    <div class="form">
      <div class="two-thirds">
        <Choose
          name={words.name}
          field="preset"
          options={PRESETS}
          chosen={chosen}
          label={(preset) => words[preset]}
          pick={setChosen}
          isNamed
        />
      </div>
      <button type="button" class="beside" data-testid="fill-preset" onClick={() => fill(chosen)}>
        {words.fill}
      </button>
      <p class="quiet wide">{words.replaces}</p>
    </div>
  );
}
