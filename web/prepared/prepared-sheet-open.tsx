/** The prepared sheet that is at hand, as the panels fill it in. */
import { panel } from '../parts/panels.ts';
import type { OpenSheet } from '../sheet/open-sheet.ts';
import { keepAtHand, sheetAtHand, turnAtHand } from './sheet-at-hand.ts';
import { WhichPrepared } from './which-prepared.tsx';

export function preparedSheetOpen(): OpenSheet {
  return {
    key: `prepared ${turnAtHand.value}`,
    sheet: sheetAtHand,
    enter: keepAtHand,
    show: (name) => (panel.value = { prepared: name }),
    above: <WhichPrepared leadsToFields />,
  };
}
