/**
 * How much a system holds, from its lines and vessels, with an honest range; and which of it is connected. Pure.
 *
 * Ranges are rough nine-in-ten ones of ours. Those of the parts are independent of one another, so that their
 * deviations add up as squares, upwards and downwards by themselves.
 */
import { liquidKgPerM3 } from '../../protocol/liquid-densities.ts';
import type { RigSection, Tube, Vessel, VesselKind } from '../../protocol/rig-facts.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { volumePerMetreM3 } from '../../protocol/tube-sizes.ts';

export interface VolumeRange {
  readonly lowM3: number;
  readonly estimateM3: number;
  readonly highM3: number;
}

export type RigFacts = Pick<Sheet, 'tubes' | 'vessels' | 'sections' | 'joins'>;

/** A tape along a wall, and what is bent away behind it. Ours. */
const LENGTH_SHARE = 0.1;
/** Of the wall at any point, either way: ASTM B280, from memory. */
const WALL_SHARE = 0.1;
/** A volume that was entered is from a data sheet, or was itself reckoned. Ours. */
const ENTERED_SHARE = 0.05;

/**
 * The share of a part's volume that its charge would fill as liquid: low, middle, high. A receiver is never filled
 * beyond some 80 %; elsewhere most of the room is vapour's. Common practice, no source.
 */
const FILL = {
  receiver: [0.5, 0.7, 0.85],
  other: [0.2, 0.32, 0.5],
} as const;

/**
 * Parts as they are usual on a room's split system, L: rough guesses, no source. Twice as much or half of it is not
 * rare: whoever knows better enters it.
 */
const USUAL_L: Readonly<Record<VesselKind, number>> = {
  indoor_coil: 0.8,
  outdoor_coil: 1.5,
  compressor: 2,
  accumulator: 1,
  receiver: 1.5,
  filter_drier: 0.2,
  other: 0.5,
};
const USUAL_FACTOR = 2;

export function tubeVolume({ outerDiameterM, wallM, lengthM }: Tube): VolumeRange {
  const perMetre = (share: number) =>
    volumePerMetreM3({ outerDiameterM, wallM: Math.min(wallM * share, outerDiameterM / 2) });
  return {
    lowM3: perMetre(1 + WALL_SHARE) * lengthM * (1 - LENGTH_SHARE),
    estimateM3: perMetre(1) * lengthM,
    highM3: perMetre(1 - WALL_SHARE) * lengthM * (1 + LENGTH_SHARE),
  };
}

/** Null where it was entered by the charge of a refrigerant whose density is not in the list. */
export function vesselVolume({ kind, size }: Vessel): VolumeRange | null {
  switch (size.by) {
    case 'volume':
      return around(size.volumeM3);
    case 'usual': {
      const estimateM3 = USUAL_L[kind] / 1000;
      return { lowM3: estimateM3 / USUAL_FACTOR, estimateM3, highM3: estimateM3 * USUAL_FACTOR };
    }
    case 'charge': {
      const density = liquidKgPerM3(size.refrigerant);
      if (density === null) return null;
      const liquidM3 = size.chargeKg / density;
      const [low, middle, high] = kind === 'receiver' ? FILL.receiver : FILL.other;
      return { lowM3: liquidM3 / high, estimateM3: liquidM3 / middle, highM3: liquidM3 / low };
    }
  }
}

/** Null where nothing is known of it. */
export function sectionVolume(section: RigSection, facts: RigFacts): VolumeRange | null {
  if (section.volumeM3 !== null) return around(section.volumeM3);
  const isHere = placedIn(section, facts.sections);
  return summed([
    ...facts.tubes.filter(isHere).map(tubeVolume),
    ...facts.vessels.filter(isHere).map(vesselVolume),
  ]);
}

/** What names no section is in the one with the hose. */
export function placedIn(section: RigSection, sections: readonly RigSection[]) {
  const home = sections.find(({ hoseHere }) => hoseHere) ?? sections[0];
  return ({ section: name }: { readonly section: string }) =>
    name === section.name || (name === '' && section === home);
}

/** Null where not one of them is known. */
export function summed(parts: readonly (VolumeRange | null)[]): VolumeRange | null {
  const known = parts.filter((part) => part !== null);
  if (known.length === 0) return null;
  const estimateM3 = sum(known.map((part) => part.estimateM3));
  const below = Math.hypot(...known.map((part) => part.estimateM3 - part.lowM3));
  const above = Math.hypot(...known.map((part) => part.highM3 - part.estimateM3));
  return { lowM3: estimateM3 - below, estimateM3, highM3: estimateM3 + above };
}

function around(estimateM3: number): VolumeRange {
  return {
    lowM3: estimateM3 * (1 - ENTERED_SHARE),
    estimateM3,
    highM3: estimateM3 * (1 + ENTERED_SHARE),
  };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
