/**
 * Rules by which a hold passes, as documents and specifications have them. They contradict one another,
 * so that a rule is a choice and not a constant; what the equipment's maker asks for comes first, and
 * stands in the fields of the job sheet itself.
 */
import { paFromMicron } from './units.ts';

/** `own`: the job sheet's own fields, as the equipment maker's sheet or the technician has them. */
export const PASS_RULE_IDS = [
  'own',
  'ufgs-15182',
  'ufgs-15741n',
  'au-nz-deep',
  'au-nz-triple',
  'canada-300',
  'ashrae-guideline-3',
  'ashrae-15-2',
  'en-378-2',
] as const;
export type PassRuleId = (typeof PASS_RULE_IDS)[number];

/** `read` in the document; `second_hand` where another restates it; `memory`: look it up before use. */
type Evidence = 'read' | 'second_hand' | 'memory';

interface PassRuleSource {
  readonly document: string;
  readonly clause: string | null;
  readonly evidence: Evidence;
}

/** A rule; pressures absolute, as a gauge without error would show them. Null: it does not say. */
export interface PassRule {
  readonly id: PassRuleId;
  readonly kind: 'standard' | 'specification' | 'maker_sheet';
  readonly source: PassRuleSource | null;
  /** To be reached before the hold. */
  readonly finalPa: number | null;
  readonly holdS: number | null;
  /** No more than this at the end of the hold. */
  readonly endLimitPa: number | null;
  /** Risen by no more than this over the hold. */
  readonly allowedRisePa: number | null;
  /** Earlier evacuations, each broken with nitrogen: how deep. */
  readonly beforePa: readonly number[];
  /** The surroundings may not be colder, °C. */
  readonly coldestC: number | null;
}

type Published = Exclude<PassRuleId, 'own'>;

const NOTHING_SAID = {
  finalPa: null,
  holdS: null,
  endLimitPa: null,
  allowedRisePa: null,
  beforePa: [],
  coldestC: null,
} as const;
const HOUR_S = 3600;
const MINUTE_S = 60;
const AU_NZ_CODE =
  'Australia and New Zealand Refrigerant Handling Code of Practice, as training courses restate it';

export const PASS_RULES: Readonly<Record<Published, PassRule>> = {
  // 'shall stand for 1 hour. If the pressure rises over 500 micrometers …'; above 2 °C (35 °F).
  'ufgs-15182': {
    ...NOTHING_SAID,
    id: 'ufgs-15182',
    kind: 'specification',
    source: {
      document: 'Unified Facilities Guide Specification UFGS-15182 (predecessor of 23 23 00)',
      clause: '3.3.3',
      evidence: 'read',
    },
    finalPa: paFromMicron(300),
    holdS: HOUR_S,
    endLimitPa: paFromMicron(500),
    coldestC: 2,
  },
  // Three times 300 micron, broken to atmospheric pressure between; the last one is held for 2 h.
  'ufgs-15741n': {
    ...NOTHING_SAID,
    id: 'ufgs-15741n',
    kind: 'specification',
    source: {
      document: 'Unified Facilities Guide Specification UFGS-15741N',
      clause: 'page 36',
      evidence: 'read',
    },
    finalPa: paFromMicron(300),
    holdS: 2 * HOUR_S,
    endLimitPa: paFromMicron(300),
    beforePa: [paFromMicron(300), paFromMicron(300)],
  },
  // 500 micron; below 600 micron for 60 minutes; 100 micron or more in the hour mean leak or moisture.
  'au-nz-deep': {
    ...NOTHING_SAID,
    id: 'au-nz-deep',
    kind: 'standard',
    source: { document: AU_NZ_CODE, clause: '5.4.1', evidence: 'second_hand' },
    finalPa: paFromMicron(500),
    holdS: HOUR_S,
    endLimitPa: paFromMicron(600),
    allowedRisePa: paFromMicron(100),
  },
  // Twice to 4500 micron, broken with dry nitrogen, then as above.
  'au-nz-triple': {
    ...NOTHING_SAID,
    id: 'au-nz-triple',
    kind: 'standard',
    source: { document: AU_NZ_CODE, clause: '5.4.2', evidence: 'second_hand' },
    finalPa: paFromMicron(500),
    holdS: HOUR_S,
    endLimitPa: paFromMicron(600),
    beforePa: [paFromMicron(4500), paFromMicron(4500)],
  },
  // A depth, and no hold.
  'canada-300': {
    ...NOTHING_SAID,
    id: 'canada-300',
    kind: 'standard',
    source: {
      document:
        'Environment Canada, Environmental Code of Practice for halocarbons, 2015 (errata 2021)',
      clause: '4.5(3), 4.8(6), 4.9(7); 500 micron in 4.8(3)',
      evidence: 'read',
    },
    finalPa: paFromMicron(300),
  },
  // 1 mmHg, to be checked for leaks above 2.5 mmHg; how long it is held was not in what was read.
  'ashrae-guideline-3': {
    ...NOTHING_SAID,
    id: 'ashrae-guideline-3',
    kind: 'standard',
    source: { document: 'ASHRAE Guideline 3-1996', clause: null, evidence: 'second_hand' },
    finalPa: paFromMicron(1000),
    endLimitPa: paFromMicron(2500),
  },
  'ashrae-15-2': {
    ...NOTHING_SAID,
    id: 'ashrae-15-2',
    kind: 'standard',
    source: {
      document: 'ASHRAE Standard 15.2, and the International Mechanical Code',
      clause: null,
      evidence: 'memory',
    },
    finalPa: paFromMicron(500),
    holdS: 10 * MINUTE_S,
    endLimitPa: paFromMicron(1500),
  },
  // Less than 270 Pa.
  'en-378-2': {
    ...NOTHING_SAID,
    id: 'en-378-2',
    kind: 'standard',
    source: { document: 'EN 378-2 and ISO 5149-2', clause: null, evidence: 'memory' },
    finalPa: 270,
  },
};

/** The fields of the sheet that make a rule of its own. */
export interface OwnRuleFields {
  readonly targetPa: number;
  readonly holdS: number;
  readonly endLimitPa: number;
  readonly allowedRisePa: number;
}

export function passRuleOf(id: PassRuleId, own: OwnRuleFields): PassRule {
  if (id !== 'own') return PASS_RULES[id];
  return {
    ...NOTHING_SAID,
    id,
    kind: 'maker_sheet',
    source: null,
    finalPa: own.targetPa,
    holdS: own.holdS,
    endLimitPa: own.endLimitPa,
    allowedRisePa: own.allowedRisePa,
  };
}
