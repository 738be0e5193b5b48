/** The holds of a job: as marked, or as the stages tell them. */
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import type { ToldHold } from '../conclusions.ts';
import type { Spell } from './spells.ts';

export interface Hold {
  readonly fromS: number;
  /** Reopened, broken with nitrogen, or the end of the recording. */
  readonly toS: number;
}

/** What makes another rig of it, or another view. */
const CHANGES: readonly MarkKind[] = [
  'joints_tightened',
  'sections_shut',
  'sections_opened',
  'stub_shut',
  'stub_opened',
  'part_seen',
  'nitrogen_break',
];

/**
 * The holds that followed a pull-down.
 * @param marks in order of time
 * @param endS of the recording
 */
export function markedHolds(marks: readonly Mark[], endS: number): Hold[] {
  const holds: Hold[] = [];
  let pumped = false;
  let fromS: number | null = null;
  const close = (toS: number): void => {
    if (fromS !== null) holds.push({ fromS, toS });
    fromS = null;
  };
  for (const { kind, elapsedS } of marks) {
    if (kind === 'pump_on') pumped = true;
    if (kind === 'isolated' && pumped) fromS ??= elapsedS;
    if (kind === 'reopened' || kind === 'nitrogen_break') close(elapsedS);
  }
  close(endS);
  return holds;
}

/**
 * All holds so far, those that nobody marked among them.
 * @param spells all stages, in order
 * @param marks up to `nowS`
 */
export function holdsIn(
  spells: readonly Spell[],
  marks: readonly Mark[],
  nowS: number,
): ToldHold[] {
  const holds: ToldHold[] = [];
  let pumpedS = 0;
  let onlyPumped = true;
  for (const [at, { stage }] of spells.entries()) {
    const untilS = spells[at + 1]?.stage.sinceS ?? nowS;
    switch (stage.name) {
      case 'waiting':
        break;
      case 'pull_down':
      case 'at_depth':
        pumpedS += Math.max(untilS - stage.sinceS, 0);
        break;
      case 'rise': {
        const before = holds.at(-1);
        const changed = isChanged(marks, before?.fromS ?? 0, stage.sinceS);
        holds.push({
          fromS: stage.sinceS,
          toS: untilS,
          recognisedBy: stage.recognisedBy,
          isolationSure: isIsolationSure(stage),
          pumpedS,
          repeats: before !== undefined && pumpedS > 0 && onlyPumped && !changed,
        });
        pumpedS = 0;
        onlyPumped = true;
        break;
      }
      case 'pump_stopped':
      case 'nitrogen_break':
      case 'vented':
        onlyPumped = false;
        break;
    }
  }
  return holds;
}

/** So many earlier holds are reckoned with. */
const MOST_EARLIER = 2;

/** A shorter one tells too little, s. */
const LEAST_EARLIER_S = 120;

/** What of the holds before the last has the same leak as it, and tells something of it. */
export function repeatedBefore(holds: readonly ToldHold[]): ToldHold[] {
  let first = holds.length - 1;
  while (first > 0 && holds[first]?.repeats) first -= 1;
  return holds.slice(Math.max(first, 0), -1).filter(isTelling).slice(-MOST_EARLIER);
}

export function isTelling({ fromS, toS, isolationSure }: ToldHold): boolean {
  return isolationSure && toS - fromS >= LEAST_EARLIER_S;
}

/** Whether it became another system, or another view of it, between two moments. */
export function isChanged(marks: readonly Mark[], fromS: number, untilS: number): boolean {
  return marks.some(
    ({ kind, elapsedS }) => CHANGES.includes(kind) && elapsedS > fromS && elapsedS <= untilS,
  );
}

/** Whether a rise can't be anything under pumping. */
export function isIsolationSure({ recognisedBy, alternatives }: Spell['stage']): boolean {
  return recognisedBy === 'mark' || !alternatives.includes('pull_down');
}
