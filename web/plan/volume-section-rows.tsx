/** Rows for sections, and for what joins two of them. */
import { JOIN_KINDS, JOIN_STATES } from '../../protocol/rig-facts.ts';
import { speech } from '../store/speech.ts';
import { Choose, RowList, Type } from './row-parts.tsx';
import {
  freshSection,
  type JoinRow,
  nameOf,
  type SectionRow,
  type VolumeDraft,
} from './volume-draft.ts';

interface SectionRowsProps {
  readonly draft: VolumeDraft;
  readonly change: (rows: readonly SectionRow[]) => void;
}

export function SectionRows({ draft, change }: SectionRowsProps) {
  const words = speech.value.wording.planning.volume;
  const rows = draft.sections;
  return (
    <RowList
      list="sections"
      title={words.sections}
      rows={rows}
      fresh={freshSection(draft)}
      change={change}
      row={(row, put) => (
        <>
          <Type
            name={words.sectionName}
            value={row.name}
            isNumber={false}
            type={(name) => put({ name })}
          />
          <Type name={words.litres} value={row.litres} type={(litres) => put({ litres })} />
          <label class="check">
            <input
              type="radio"
              name="hose-here"
              checked={row.hoseHere}
              // The hose is on one section only.
              onChange={() => change(rows.map((other) => ({ ...other, hoseHere: other === row })))}
            />
            {words.hoseHere}
          </label>
        </>
      )}
    />
  );
}

interface JoinRowsProps {
  readonly draft: VolumeDraft;
  readonly change: (rows: readonly JoinRow[]) => void;
}

export function JoinRows({ draft, change }: JoinRowsProps) {
  const words = speech.value.wording.planning.volume;
  const keys = draft.sections.map(({ key }) => key);
  if (keys.length < 2) return null;
  const [one = '', other = ''] = keys;
  return (
    <RowList
      list="joins"
      title={words.joins}
      rows={draft.joins}
      fresh={{ kind: 'service_valve', one, other, state: 'unknown' }}
      change={change}
      row={(row, put) => (
        <>
          <Choose
            name={words.joinKind}
            options={JOIN_KINDS}
            chosen={row.kind}
            label={(kind) => words.joinKinds[kind]}
            pick={(kind) => put({ kind })}
          />
          <Choose
            name={words.from}
            options={keys}
            chosen={row.one}
            label={(key) => nameOf(draft, key)}
            pick={(key) => put({ one: key })}
            isNamed
          />
          <Choose
            name={words.to}
            options={keys}
            chosen={row.other}
            label={(key) => nameOf(draft, key)}
            pick={(key) => put({ other: key })}
            isNamed
          />
          <Choose
            name={words.state}
            options={JOIN_STATES}
            chosen={row.state}
            label={(state) => words.states[state]}
            pick={(state) => put({ state })}
          />
        </>
      )}
    />
  );
}
