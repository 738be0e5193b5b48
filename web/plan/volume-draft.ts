/** Lines, vessels, sections and valves between what is typed and the exact rows of the sheet: pure. */
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
import { numberFrom } from '../typed-in/typed-number.ts';
import { sayExactly } from '../words/say-number.ts';
import type { Speech } from '../words/speech.ts';
import type { RigFacts } from './internal-volume.ts';

/** A size that is in no list. */
export const OWN_SIZE = 'own';

export interface TubeRow {
  readonly role: Tube['role'];
  /** Its place in the list of sizes, or `OWN_SIZE`. */
  readonly size: string;
  readonly outerMm: string;
  readonly wallMm: string;
  readonly lengthM: string;
  /** Its key; empty: where the hose is. */
  readonly section: string;
}
export interface VesselRow {
  readonly kind: Vessel['kind'];
  readonly by: Vessel['size']['by'];
  /** Litres or kilograms. */
  readonly amount: string;
  readonly refrigerant: string;
  readonly section: string;
}
export interface SectionRow {
  /** What the rows that are in it go by, so that they stay in it whatever it is called. */
  readonly key: string;
  readonly name: string;
  readonly litres: string;
  readonly hoseHere: boolean;
}
export interface JoinRow {
  readonly kind: Join['kind'];
  readonly one: string;
  readonly other: string;
  readonly state: Join['state'];
}
export interface VolumeDraft {
  readonly sections: readonly SectionRow[];
  readonly tubes: readonly TubeRow[];
  readonly vessels: readonly VesselRow[];
  readonly joins: readonly JoinRow[];
}

type DraftList = keyof VolumeDraft;
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

export function draftOf(facts: RigFacts, speech: Speech): VolumeDraft {
  const text = (value: number, perUnit: number) =>
    sayExactly(Number((value * perUnit).toPrecision(6)), speech);
  return {
    sections: facts.sections.map(({ name, volumeM3, hoseHere }) => ({
      key: name,
      name,
      litres: volumeM3 === null ? '' : text(volumeM3, 1000),
      hoseHere,
    })),
    tubes: facts.tubes.map((tube) => ({
      role: tube.role,
      size: sizeOf(tube),
      outerMm: text(tube.outerDiameterM, 1000),
      wallMm: text(tube.wallM, 1000),
      lengthM: text(tube.lengthM, 1),
      section: tube.section,
    })),
    vessels: facts.vessels.map(({ kind, size, section }) => ({
      kind,
      by: size.by,
      amount:
        size.by === 'volume'
          ? text(size.volumeM3, 1000)
          : size.by === 'charge'
            ? text(size.chargeKg, 1)
            : '',
      refrigerant: size.by === 'charge' ? size.refrigerant : '',
      section,
    })),
    joins: facts.joins.map(({ kind, between: [one, other], state }) => ({
      kind,
      one,
      other,
      state,
    })),
  };
}

function sizeOf({ outerDiameterM, wallM }: Tube): string {
  const place = TUBE_SIZES.findIndex(
    (size) => near(size.outerDiameterM, outerDiameterM) && near(size.wallM, wallM),
  );
  return place === -1 ? OWN_SIZE : String(place);
}

function near(one: number, other: number): boolean {
  return Math.abs(one - other) < 1e-7;
}

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

/** Each row with the name that its section has now, or has in another state of the draft. */
export function named(draft: VolumeDraft, called = draft): VolumeDraft {
  const nameIn = (key: string) => nameOf(called, key).trim();
  const { sections, tubes, vessels, joins } = draft;
  return {
    sections,
    tubes: tubes.map((row) => ({ ...row, section: nameIn(row.section) })),
    vessels: vessels.map((row) => ({ ...row, section: nameIn(row.section) })),
    joins: joins.map((row) => ({ ...row, one: nameIn(row.one), other: nameIn(row.other) })),
  };
}

/** What the section of a key is called now. */
export function nameOf({ sections }: VolumeDraft, key: string): string {
  return sections.find((section) => section.key === key)?.name ?? key;
}

/** No row goes by its key, those of a section that was taken out among them. */
export function freshSection({ sections, tubes, vessels, joins }: VolumeDraft): SectionRow {
  const used = new Set([
    ...sections.map(({ key }) => key),
    ...[...tubes, ...vessels].map(({ section }) => section),
    ...joins.flatMap(({ one, other }) => [one, other]),
  ]);
  let number = 1;
  while (used.has(`section ${number}`)) number += 1;
  return { key: `section ${number}`, name: '', litres: '', hoseHere: sections.length === 0 };
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
  const volume = numberFrom(litres);
  return { name: name.trim(), volumeM3: volume === null ? null : volume / 1000, hoseHere };
}

function tubeOf({ role, size, outerMm, wallMm, lengthM, section }: TubeRow): Tube {
  const listed = size === OWN_SIZE ? undefined : TUBE_SIZES[Number(size)];
  return {
    role,
    outerDiameterM: listed?.outerDiameterM ?? number(outerMm) / 1000,
    wallM: listed?.wallM ?? number(wallMm) / 1000,
    lengthM: number(lengthM),
    section,
  };
}

function vesselOf({ kind, by, amount, refrigerant, section }: VesselRow): Vessel {
  switch (by) {
    case 'volume':
      return { kind, size: { by, volumeM3: number(amount) / 1000 }, section };
    case 'charge':
      return { kind, size: { by, chargeKg: number(amount), refrigerant }, section };
    case 'usual':
      return { kind, size: { by }, section };
  }
}

function joinOf({ kind, one, other, state }: JoinRow): Join {
  return { kind, between: [one, other], state };
}

function number(text: string): number {
  return numberFrom(text) ?? Number.NaN;
}
