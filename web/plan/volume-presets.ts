/** Quick starts for the map of a system, as drafts: every figure is to be put right. Common practice, no source. */
import { TUBE_SIZES } from '../../protocol/tube-sizes.ts';
import type { Wording } from '../words/english.ts';
import type { JoinRow, SectionRow, TubeRow, VesselRow, VolumeDraft } from './volume-draft.ts';

export const PRESETS = ['line_set', 'whole_split', 'several_units'] as const;
export type Preset = (typeof PRESETS)[number];

type Names = Wording['planning']['volume']['sectionNames'];

export function presetDraft(preset: Preset, names: Names): VolumeDraft {
  switch (preset) {
    case 'line_set':
      return {
        sections: [here(names.lines), beside(names.outdoor)],
        tubes: lineSet(names.lines, '1/4', '3/8', 5),
        vessels: [usual('indoor_coil', names.lines), usual('outdoor_coil', names.outdoor)],
        joins: [joined('service_valve', names.lines, names.outdoor, 'closed')],
      };
    case 'whole_split':
      return {
        sections: [here(names.lines), beside(names.lowSide), beside(names.outdoorCoil)],
        tubes: lineSet(names.lines, '1/4', '3/8', 5),
        vessels: [
          usual('indoor_coil', names.lines),
          usual('compressor', names.lowSide),
          usual('accumulator', names.lowSide),
          usual('outdoor_coil', names.outdoorCoil),
        ],
        joins: [
          joined('service_valve', names.lines, names.lowSide, 'open'),
          joined('reversing_valve', names.lowSide, names.outdoorCoil, 'unknown'),
          joined('expansion_valve', names.lines, names.outdoorCoil, 'unknown'),
        ],
      };
    case 'several_units': {
      const units = ['1', '2', '3'].map((number) => names.indoor({ number }));
      return {
        sections: [here(names.main), ...units.map(beside), beside(names.outdoor)],
        tubes: [
          ...lineSet(names.main, '3/8', '5/8', 10),
          ...units.flatMap((unit) => lineSet(unit, '1/4', '3/8', 5)),
        ],
        vessels: [
          ...units.map((unit) => usual('indoor_coil', unit)),
          usual('outdoor_coil', names.outdoor),
        ],
        joins: [
          ...units.map((unit) => joined('branch_valve', names.main, unit, 'open')),
          joined('service_valve', names.main, names.outdoor, 'closed'),
        ],
      };
    }
  }
}

function here(name: string): SectionRow {
  return { key: name, name, litres: '', hoseHere: true };
}

function beside(name: string): SectionRow {
  return { key: name, name, litres: '', hoseHere: false };
}

function lineSet(section: string, liquid: string, gas: string, lengthM: number): TubeRow[] {
  const tube = (role: TubeRow['role'], size: string): TubeRow => ({
    role,
    size: String(TUBE_SIZES.findIndex(({ name }) => name === `${size} in`)),
    outerMm: '',
    wallMm: '',
    lengthM: String(lengthM),
    section,
  });
  return [tube('liquid', liquid), tube('gas', gas)];
}

function usual(kind: VesselRow['kind'], section: string): VesselRow {
  return { kind, by: 'usual', amount: '', refrigerant: '', section };
}

function joined(
  kind: JoinRow['kind'],
  one: string,
  other: string,
  state: JoinRow['state'],
): JoinRow {
  return { kind, one, other, state };
}
