/** From the job sheet to a rig that can be reckoned with, or to what is missing for that. Pure. */
import type { Sheet } from '../../protocol/sheet.ts';
import { type FarPart, farParts } from './far-parts.ts';
import type { RigFacts } from './internal-volume.ts';

/** The system and what evacuates it, all in SI. */
export interface PlannedRig {
  /** Of the system, without the hoses. */
  readonly volumeM3: number;
  readonly pumpDisplacementM3PerS: number;
  /** 0 for a pump without a floor of its own. */
  readonly pumpUltimatePa: number;
  readonly hoseBoreM: number;
  /** Of one hose. */
  readonly hoseLengthM: number;
  /** As many hoses side by side, each with a core of its own. */
  readonly hoseCount: number;
  readonly coreInPlace: boolean;
  /** What lies behind long lines; the rest of the volume lies at the hose. */
  readonly far: readonly FarPart[];
}

/** Without these there is no expectation. */
const NEEDED = ['volumeM3', 'pumpDisplacementM3PerS', 'hoseBoreM', 'hoseLengthM'] as const;
type NeededField = (typeof NEEDED)[number];

/** Left empty, these are assumed, and the assumption is said. */
const ASSUMABLE = ['pumpUltimatePa', 'hoseCount', 'core'] as const;
type AssumedField = (typeof ASSUMABLE)[number];

export type RigFields = Pick<Sheet, NeededField | AssumedField> & RigFacts;

export type Plan =
  | { readonly kind: 'missing'; readonly missing: readonly NeededField[] }
  | {
      readonly kind: 'rig';
      readonly rig: PlannedRig;
      readonly assumed: readonly AssumedField[];
    };

export function planRig(fields: RigFields): Plan {
  const { volumeM3, pumpDisplacementM3PerS, hoseBoreM, hoseLengthM } = fields;
  if (
    volumeM3 === null ||
    pumpDisplacementM3PerS === null ||
    hoseBoreM === null ||
    hoseLengthM === null
  ) {
    return { kind: 'missing', missing: NEEDED.filter((field) => fields[field] === null) };
  }
  return {
    kind: 'rig',
    rig: {
      volumeM3,
      pumpDisplacementM3PerS,
      pumpUltimatePa: fields.pumpUltimatePa ?? 0,
      hoseBoreM,
      hoseLengthM,
      hoseCount: fields.hoseCount ?? 1,
      coreInPlace: fields.core === 'in',
      far: farParts(fields),
    },
    assumed: ASSUMABLE.filter((field) => fields[field] === null || fields[field] === 'unknown'),
  };
}
