/** Lines, vessels, sections and valves of the sheet as rows in which one types: pure. */
import type { Join, Tube, Vessel } from '../../protocol/rig-facts.ts';
import { TUBE_SIZES } from '../../protocol/tube-sizes.ts';
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
