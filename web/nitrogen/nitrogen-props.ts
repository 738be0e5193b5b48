/** What every part of the nitrogen test's panel is about. */
import type { GaugeUnit } from '../../protocol/gauge-pressure.ts';
import type { OpenSheet } from '../sheet/open-sheet.ts';

export interface NitrogenProps {
  readonly open: OpenSheet;
  readonly unit: GaugeUnit;
}
