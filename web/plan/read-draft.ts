/** From the rows as they were typed to the exact ones of the sheet, or to the row that can't be: pure. */
import {
  type Join,
  joinsSchema,
  type RigSection,
  sectionsSchema,
  type Tube,
  tubesSchema,
  type Vessel,
  vesselsSchema,
} from '../../protocol/rig-facts.ts';
import { TUBE_SIZES } from '../../protocol/tube-sizes.ts';
import { LENGTHS_M, MASSES_KG, measureFrom, VOLUMES_M3 } from '../typed-in/typed-measure.ts';
import type { RigFacts } from './internal-volume.ts';
import {
  type JoinRow,
  named,
  OWN_SIZE,
  type SectionRow,
  type TubeRow,
  type VesselRow,
  type VolumeDraft,
} from './volume-draft.ts';

/** In these units without another one beside the figure. */
const MM_M = 1e-3;
const LITRE_M3 = 1e-3;

export type DraftList = keyof VolumeDraft;
type DraftReason = 'number' | 'wall' | 'name' | 'ends' | 'unknown' | 'many';

type ReadDraft =
  | { readonly ok: true; readonly facts: RigFacts }
  /** Which row of which list; counted from 0. */
  | {
      readonly ok: false;
      readonly list: DraftList;
      readonly row: number;
      readonly reason: DraftReason;
    };

export function readDraft(draft: VolumeDraft): ReadDraft {
  const rows = named(draft);
  const raw = {
    sections: rows.sections.map(sectionOf),
    tubes: rows.tubes.map(tubeOf),
    vessels: rows.vessels.map(vesselOf),
    joins: rows.joins.map(joinOf),
  };
  const sections = sectionsSchema.safeParse(raw.sections);
  if (!sections.success) return refused('sections', sections.error.issues[0]?.path ?? []);
  const lost = lostRow(draft);
  if (lost !== null) return lost;
  const tubes = tubesSchema.safeParse(raw.tubes);
  if (!tubes.success) return refused('tubes', tubes.error.issues[0]?.path ?? []);
  const vessels = vesselsSchema.safeParse(raw.vessels);
  if (!vessels.success) return refused('vessels', vessels.error.issues[0]?.path ?? []);
  const joins = joinsSchema.safeParse(raw.joins);
  if (!joins.success) return refused('joins', joins.error.issues[0]?.path ?? []);
  return {
    ok: true,
    facts: { sections: sections.data, tubes: tubes.data, vessels: vessels.data, joins: joins.data },
  };
}

/** A row whose section is none of the list would count for nothing, and nobody would see it. */
function lostRow({ sections, tubes, vessels, joins }: VolumeDraft): ReadDraft | null {
  const isKnown = (named: string) => sections.some(({ key }) => key === named);
  const isHeld = (named: string) => named === '' || isKnown(named);
  const findings = [
    ['tubes', tubes.findIndex(({ section }) => !isHeld(section)), 'unknown'],
    ['vessels', vessels.findIndex(({ section }) => !isHeld(section)), 'unknown'],
    ['joins', joins.findIndex(({ one, other }) => !isKnown(one) || !isKnown(other)), 'unknown'],
    ['joins', joins.findIndex(({ one, other }) => one === other), 'ends'],
  ] as const;
  const found = findings.find(([, row]) => row !== -1);
  if (found === undefined) return null;
  const [list, row, reason] = found;
  return { ok: false, list, row, reason };
}

function refused(list: DraftList, path: readonly PropertyKey[]): ReadDraft {
  const [row, field] = path;
  const at = typeof row === 'number' ? row : 0;
  // Of the whole list: too many rows, or two sections of one name.
  if (typeof row !== 'number')
    return { ok: false, list, row: at, reason: list === 'sections' ? 'name' : 'many' };
  if (field === 'name') return { ok: false, list, row: at, reason: 'name' };
  return { ok: false, list, row: at, reason: field === undefined ? 'wall' : 'number' };
}

function sectionOf({ name, litres, hoseHere }: SectionRow): RigSection {
  return { name: name.trim(), volumeM3: measureFrom(litres, VOLUMES_M3, LITRE_M3), hoseHere };
}

function tubeOf({ role, size, outerMm, wallMm, lengthM, section }: TubeRow): Tube {
  const listed = size === OWN_SIZE ? undefined : TUBE_SIZES[Number(size)];
  return {
    role,
    outerDiameterM: listed?.outerDiameterM ?? number(measureFrom(outerMm, LENGTHS_M, MM_M)),
    wallM: listed?.wallM ?? number(measureFrom(wallMm, LENGTHS_M, MM_M)),
    lengthM: number(measureFrom(lengthM, LENGTHS_M, 1)),
    section,
  };
}

function vesselOf({ kind, by, amount, refrigerant, section }: VesselRow): Vessel {
  switch (by) {
    case 'volume':
      return {
        kind,
        size: { by, volumeM3: number(measureFrom(amount, VOLUMES_M3, LITRE_M3)) },
        section,
      };
    case 'charge':
      return {
        kind,
        size: { by, chargeKg: number(measureFrom(amount, MASSES_KG, 1)), refrigerant },
        section,
      };
    case 'usual':
      return { kind, size: { by }, section };
  }
}

function joinOf({ kind, one, other, state }: JoinRow): Join {
  return { kind, between: [one, other], state };
}

/** Nothing typed is refused where a figure is needed. */
function number(typed: number | null): number {
  return typed ?? Number.NaN;
}
