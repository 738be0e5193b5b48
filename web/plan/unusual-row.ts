/** The first of the rows whose figure is far from what is usual: whoever typed it may have meant another unit. Pure. */
import type { Vessel } from '../../protocol/rig-facts.ts';
import { sayTube, sayVessel, saySection } from '../words/say-rig-facts.ts';
import type { Speech } from '../words/speech.ts';
import type { RigFacts } from './internal-volume.ts';
import type { DraftList } from './read-draft.ts';

interface UnusualRow {
  readonly list: DraftList;
  readonly row: number;
  /** As the report would say it. */
  readonly said: string;
}

/** Bounds of ours, wide on purpose: what lies beyond is asked about, not refused. */
const LENGTH_M = [0.1, 200] as const;
const OUTER_M = [0.004, 0.12] as const;
const VOLUME_M3 = [0.02e-3, 0.5] as const;
const CHARGE_KG = [0.03, 300] as const;

export function unusualRow(
  { tubes, vessels, sections }: RigFacts,
  speech: Speech,
): UnusualRow | null {
  const tube = tubes.findIndex(
    ({ lengthM, outerDiameterM }) =>
      isOutside(lengthM, LENGTH_M) || isOutside(outerDiameterM, OUTER_M),
  );
  const vessel = vessels.findIndex(({ size }) => isUnusual(size));
  const section = sections.findIndex(
    ({ volumeM3 }) => volumeM3 !== null && isOutside(volumeM3, VOLUME_M3),
  );
  const [line, part, whole] = [tubes[tube], vessels[vessel], sections[section]];
  if (whole !== undefined)
    return { list: 'sections', row: section, said: saySection(whole, speech) };
  if (line !== undefined) return { list: 'tubes', row: tube, said: sayTube(line, speech) };
  if (part !== undefined) return { list: 'vessels', row: vessel, said: sayVessel(part, speech) };
  return null;
}

function isUnusual(size: Vessel['size']): boolean {
  switch (size.by) {
    case 'volume':
      return isOutside(size.volumeM3, VOLUME_M3);
    case 'charge':
      return isOutside(size.chargeKg, CHARGE_KG);
    case 'usual':
      return false;
  }
}

function isOutside(value: number, [low, high]: readonly [number, number]): boolean {
  return value < low || value > high;
}
