/** Which part of the job is going on: from the marks where there are any, else from the curve. */
import type { Mark } from '../../../protocol/mark.ts';
import type { Stage, ToldHold } from '../conclusions.ts';
import type { TimeBin } from '../readings/bin-level.ts';
import { holdsIn } from './holds.ts';
import type { RigChange } from './rig-change.ts';
import { alternativesOfRise } from './rise-certainty.ts';
import type { Spell } from './spells.ts';
import type { StageReader } from './stage-reader.ts';
import { StageWalk } from './stage-walk.ts';
import type { Trace } from './trace.ts';

/** The stage, and the moments that the fits need. */
export interface Stages {
  readonly stage: Stage;
  /** Beginning of the latest pull-down, or null before the first. */
  readonly pullDownS: number | null;
  /** The latest isolation since then, or null. */
  readonly isolatedS: number | null;
  /** When pumping or hold ended without a new pull-down: filled, opened, or the pump stopped. */
  readonly endedS: number | null;
  /** The latest change of the rig in this pull-down that the curve shows and nobody marked, or null. */
  readonly rigChanged: RigChange | null;
  /** All holds so far, those that nobody marked among them. */
  readonly holds: readonly ToldHold[];
  /** All stages so far, in order. */
  readonly spells: readonly Spell[];
}

/** A hand marks what it did within so long of it. */
const SAME_S = 60;

/**
 * @param bins of the whole history, up to now
 * @param marks any; only those up to `nowS` count
 * @param depthPa an isolation is expected near or below this (the target)
 */
export function recogniseStages(
  bins: readonly TimeBin[],
  marks: readonly Mark[],
  depthPa: number,
  nowS: number,
): Stages {
  const pending = marks
    .filter((mark) => mark.elapsedS <= nowS)
    .sort((a, b) => a.elapsedS - b.elapsedS || a.id - b.id);
  const walk = new StageWalk(depthPa);
  return stagesOf(walk.goOn([], bins, pending), walk.trace, pending, nowS);
}

/**
 * What a reader says that has come up to `nowS`.
 * @param marks up to there, in order of time
 */
export function stagesOf(
  reader: StageReader,
  trace: Trace,
  marks: readonly Mark[],
  nowS: number,
): Stages {
  const spells = withAlternatives(reader.spells, trace, nowS);
  return { ...momentsOf(spells, marks, nowS), rigChanged: unmarked(reader.rigChanged, marks) };
}

/** A mark says it better. */
function unmarked(change: RigChange | null, marks: readonly Mark[]): RigChange | null {
  const isMarked = marks.some(({ elapsedS, kind }) => {
    return kind !== 'note' && Math.abs(elapsedS - (change?.atS ?? Infinity)) < SAME_S;
  });
  return isMarked ? null : change;
}

/** What a rise may be read as, by all that has been seen of it. */
function withAlternatives(spells: readonly Spell[], trace: Trace, nowS: number): Spell[] {
  return spells.map((spell, at) => {
    const { stage } = spell;
    // What was not sure when it was told is not made so by rising on.
    const isOpen = stage.recognisedBy === 'curve' && !stage.alternatives.includes('pull_down');
    if (stage.name !== 'rise' || !isOpen) return spell;
    const untilS = Math.min(spells[at + 1]?.stage.sinceS ?? nowS, nowS);
    return {
      ...spell,
      stage: { ...stage, alternatives: alternativesOfRise(trace, stage.sinceS, untilS) },
    };
  });
}

function momentsOf(
  spells: readonly Spell[],
  marks: readonly Mark[],
  nowS: number,
): Omit<Stages, 'rigChanged'> {
  const latest = spells.at(-1);
  if (!latest) throw new Error('there is always a stage');
  const { stage } = latest;
  const pumping = spells.findLast(({ stage: { name } }) => name === 'pull_down');
  const hold = spells.findLast(({ stage: { name } }) => name === 'rise');
  const holds = hold !== undefined && (!pumping || spells.indexOf(hold) > spells.indexOf(pumping));
  const ended =
    stage.name === 'vented' || stage.name === 'nitrogen_break' || stage.name === 'pump_stopped';
  return {
    stage,
    pullDownS: pumping?.stage.sinceS ?? (holds ? hold.stage.sinceS : null),
    isolatedS: holds ? hold.stage.sinceS : null,
    endedS: ended ? stage.sinceS : null,
    holds: holdsIn(spells, marks, nowS),
    spells,
  };
}
