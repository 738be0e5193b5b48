/** Rows for lines, and for coils and vessels. */
import { REFRIGERANT_NUMBERS } from '../../protocol/refrigerants.ts';
import { TUBE_ROLES, VESSEL_KINDS } from '../../protocol/rig-facts.ts';
import { TUBE_SIZES } from '../../protocol/tube-sizes.ts';
import { speech } from '../store/speech.ts';
import { Choose, RowList, Type } from './row-parts.tsx';
import {
  nameOf,
  OWN_SIZE,
  type TubeRow,
  type VesselRow,
  type VolumeDraft,
} from './volume-draft.ts';

interface TubeRowsProps {
  readonly draft: VolumeDraft;
  readonly change: (rows: readonly TubeRow[]) => void;
}

const SIZES = [...TUBE_SIZES.map((_, place) => String(place)), OWN_SIZE];
const BYS = ['usual', 'volume', 'charge'] as const;

export function TubeRows({ draft, change }: TubeRowsProps) {
  const words = speech.value.wording.planning.volume;
  return (
    <RowList
      list="tubes"
      title={words.tubes}
      rows={draft.tubes}
      fresh={{ role: 'gas', size: '2', outerMm: '', wallMm: '', lengthM: '', section: '' }}
      change={change}
      row={(row, put) => (
        <>
          <Choose
            name={words.role}
            options={TUBE_ROLES}
            chosen={row.role}
            label={(role) => words.roles[role]}
            pick={(role) => put({ role })}
          />
          <Choose
            name={words.size}
            options={SIZES}
            chosen={row.size}
            label={saySize}
            pick={(size) => put({ size })}
          />
          {row.size === OWN_SIZE && (
            <>
              <Type name={words.outerMm} value={row.outerMm} type={(outerMm) => put({ outerMm })} />
              <Type name={words.wallMm} value={row.wallMm} type={(wallMm) => put({ wallMm })} />
            </>
          )}
          <Type name={words.lengthM} value={row.lengthM} type={(lengthM) => put({ lengthM })} />
          <SectionChoice draft={draft} chosen={row.section} pick={(section) => put({ section })} />
        </>
      )}
    />
  );
}

/** '3/8 in, coil'; '12 × 1 mm'. */
function saySize(place: string): string {
  const words = speech.value.wording.planning.volume;
  const size = TUBE_SIZES[Number(place)];
  if (size === undefined) return words.ownSize;
  return size.temper === null ? size.name : `${size.name}, ${words.tempers[size.temper]}`;
}

interface VesselRowsProps {
  readonly draft: VolumeDraft;
  readonly change: (rows: readonly VesselRow[]) => void;
}

export function VesselRows({ draft, change }: VesselRowsProps) {
  const words = speech.value.wording.planning.volume;
  return (
    <RowList
      list="vessels"
      title={words.vessels}
      rows={draft.vessels}
      fresh={{ kind: 'indoor_coil', by: 'usual', amount: '', refrigerant: '', section: '' }}
      change={change}
      row={(row, put) => (
        <>
          <Choose
            name={words.kind}
            options={VESSEL_KINDS}
            chosen={row.kind}
            label={(kind) => words.kinds[kind]}
            pick={(kind) => put({ kind })}
          />
          <Choose
            name={words.by}
            options={BYS}
            chosen={row.by}
            label={(by) => words.bys[by]}
            pick={(by) => put({ by, refrigerant: row.refrigerant || REFRIGERANT_NUMBERS[0] })}
          />
          {row.by !== 'usual' && (
            <Type
              name={words.amount[row.by]}
              value={row.amount}
              type={(amount) => put({ amount })}
            />
          )}
          {row.by === 'charge' && (
            <Choose
              name={words.refrigerant}
              options={REFRIGERANT_NUMBERS}
              chosen={row.refrigerant}
              label={String}
              pick={(refrigerant) => put({ refrigerant })}
            />
          )}
          <SectionChoice draft={draft} chosen={row.section} pick={(section) => put({ section })} />
        </>
      )}
    />
  );
}

interface SectionChoiceProps {
  readonly draft: VolumeDraft;
  readonly chosen: string;
  readonly pick: (section: string) => void;
}

/** Nothing to choose where the system is not divided. */
function SectionChoice({ draft, chosen, pick }: SectionChoiceProps) {
  const words = speech.value.wording.planning.volume;
  if (draft.sections.length === 0) return null;
  const keys = ['', ...draft.sections.map(({ key }) => key)];
  return (
    <Choose
      name={words.section}
      options={keys}
      chosen={chosen}
      label={(key) => (key === '' ? words.theHoseSection : nameOf(draft, key))}
      pick={pick}
      isNamed
    />
  );
}
