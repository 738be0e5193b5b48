/** The day's work as a row of steps, and where in it one is: pure. */
import type { CautionPlace } from '../words/say-caution.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import type { Conclusions } from '../analysis/conclusions.ts';

export interface WorkStep {
  readonly place: CautionPlace;
  readonly state: 'before' | 'now' | 'done';
  /** Since when (data time), where known. */
  readonly sinceS: number | null;
}

const ORDER: readonly CautionPlace[] = ['nitrogen', 'hook_up', 'pull_down', 'rise', 'closing_up'];

export function daysWork(conclusions: Conclusions | null, sheet: Sheet): WorkStep[] {
  const current = currentPlace(conclusions, sheet);
  const at = ORDER.indexOf(current);
  return ORDER.map((place, position) => ({
    place,
    state: position === at ? 'now' : position < at ? 'done' : 'before',
    sinceS: position === at && conclusions !== null ? conclusions.stage.sinceS : null,
  }));
}

function currentPlace(conclusions: Conclusions | null, sheet: Sheet): CautionPlace {
  if (conclusions === null) return 'hook_up';
  switch (conclusions.stage.name) {
    case 'waiting':
      return 'hook_up';
    case 'pull_down':
    case 'at_depth':
    case 'pump_stopped':
    case 'nitrogen_break':
    case 'vented':
      return 'pull_down';
    case 'rise': {
      const rise = conclusions.rise;
      const over = rise?.verdict === 'tight_dry' && rise.heldS >= sheet.holdS;
      return over ? 'closing_up' : 'rise';
    }
  }
}
