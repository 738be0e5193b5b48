/** Which sections the hose reaches by what is said of the valves between them, and how much that holds. Pure. */
import type { Join, JoinState, RigSection } from '../../protocol/rig-facts.ts';
import {
  type RigFacts,
  sectionVolume,
  summed,
  tubeVolume,
  vesselVolume,
  type VolumeRange,
} from './internal-volume.ts';

interface Reached {
  /** By the names of the sections; empty where the system was not divided. */
  readonly names: readonly string[];
  /** Null where nothing is known of any. */
  readonly volume: VolumeRange | null;
  /** Reached, and of no known volume: it is not in the sum. */
  readonly uncounted: readonly string[];
}

export interface ConnectedVolume {
  /** Past what is said to be open. */
  readonly sure: Reached;
  /** The same, were all open of which it is not known; null where that makes no difference. */
  readonly ifOpen: Reached | null;
  /** What makes the difference. */
  readonly unknownJoins: readonly Join[];
}

export function connectedVolume(facts: RigFacts): ConnectedVolume {
  const { sections, joins, tubes, vessels } = facts;
  const home = homeOf(sections);
  if (home === null) {
    const volume = summed([...tubes.map(tubeVolume), ...vessels.map(vesselVolume)]);
    const whole = { names: [], volume, uncounted: [] };
    return { sure: whole, ifOpen: null, unknownJoins: [] };
  }
  const sure = reachedFrom(home, facts, ['open']);
  const possible = reachedFrom(home, facts, ['open', 'unknown']);
  if (possible.names.length === sure.names.length) return { sure, ifOpen: null, unknownJoins: [] };
  const unknownJoins = joins.filter(
    ({ state, between }) =>
      state === 'unknown' && between.some((name) => possible.names.includes(name)),
  );
  return { sure, ifOpen: possible, unknownJoins };
}

/** The section that the hose is on; the first where none was said to be. */
export function homeOf(sections: readonly RigSection[]): RigSection | null {
  return sections.find(({ hoseHere }) => hoseHere) ?? sections[0] ?? null;
}

/** A way from the hose to each section that is reached, the hose's own first, each by as few joins as there can be. */
export function waysFrom(
  home: RigSection,
  { sections, joins }: Pick<RigFacts, 'sections' | 'joins'>,
  passable: readonly JoinState[],
): ReadonlyMap<string, readonly Join[]> {
  const ways = new Map<string, readonly Join[]>([[home.name, []]]);
  // What is added while one goes through a map is gone through as well.
  for (const [name, way] of ways) {
    for (const join of joins) {
      const { between, state } = join;
      const next = otherEnd(between, name);
      if (next === null || !passable.includes(state) || ways.has(next)) continue;
      if (sections.some((section) => section.name === next)) ways.set(next, [...way, join]);
    }
  }
  return ways;
}

function reachedFrom(home: RigSection, facts: RigFacts, passable: readonly JoinState[]): Reached {
  const ways = waysFrom(home, facts, passable);
  const reached = facts.sections.filter(({ name }) => ways.has(name));
  const volumes = reached.map((section) => ({
    name: section.name,
    volume: sectionVolume(section, facts),
  }));
  return {
    names: reached.map(({ name }) => name),
    volume: summed(volumes.map(({ volume }) => volume)),
    uncounted: volumes.filter(({ volume }) => volume === null).map(({ name }) => name),
  };
}

function otherEnd([one, other]: Join['between'], name: string): string | null {
  return one === name ? other : other === name ? one : null;
}
