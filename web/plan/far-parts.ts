/**
 * What of a system lies behind long lines, as seen from the hose: a tree of volumes, each on a line of its own. Pure.
 *
 * Half of a line's own volume counts as lying at each of its ends. What is joined by a service valve hangs on the
 * near end of the lines before it, where such valves are; all else on their far end. Lines of one role lie one after
 * the other, and are put into one: the resistance of laminar flow goes with length over the fourth power of the bore.
 */
import type { RigSection, Tube } from '../../protocol/rig-facts.ts';
import { boreM } from '../../protocol/tube-sizes.ts';
import { homeOf, waysFrom } from './connected-volume.ts';
import { placedIn, type RigFacts, sectionVolume, summed, tubeVolume } from './internal-volume.ts';

interface Line {
  readonly boreM: number;
  readonly lengthM: number;
}

export interface FarPart extends Line {
  /** Of all the connected volume; its line leads to it. */
  readonly share: number;
  /** Where in the list the part stands that its line begins at; null: at the hose. */
  readonly after: number | null;
}

/** Stands for a system that was not divided. */
const WHOLE: RigSection = { name: '-', volumeM3: null, hoseHere: true };

/** Nothing where the system was not described, or all of it lies at the hose. */
export function farParts(facts: RigFacts): FarPart[] {
  const sections = facts.sections.length === 0 ? [WHOLE] : facts.sections;
  const home = homeOf(sections) ?? WHOLE;
  let nearM3 = 0;
  const parts: (Line & { readonly after: number | null; volumeM3: number })[] = [];
  const add = (place: number | null, volumeM3: number) => {
    const part = place === null ? undefined : parts[place];
    if (part === undefined) nearM3 += volumeM3;
    else part.volumeM3 += volumeM3;
  };
  const ends = new Map<string, { readonly near: number | null; readonly far: number | null }>();
  for (const [name, way] of waysFrom(home, { ...facts, sections }, ['open'])) {
    const section = sections.find((one) => one.name === name);
    if (section === undefined) continue;
    const last = way.at(-1);
    const before = ends.get(last?.between.find((one) => one !== name) ?? '');
    const near = (last?.kind === 'service_valve' ? before?.near : before?.far) ?? null;
    const { wholeM3, tubesM3, line } = insideOf(section, { ...facts, sections });
    add(near, line === null ? wholeM3 : tubesM3 / 2);
    if (line !== null) parts.push({ ...line, after: near, volumeM3: wholeM3 - tubesM3 / 2 });
    ends.set(name, { near, far: line === null ? near : parts.length - 1 });
  }
  const wholeM3 = parts.reduce((total, { volumeM3 }) => total + volumeM3, nearM3);
  return parts.map(({ volumeM3, ...part }) => ({ ...part, share: volumeM3 / wholeM3 }));
}

/** Volumes of a section, and the line through it; null where it has none. */
function insideOf(section: RigSection, facts: RigFacts) {
  const tubes = facts.tubes.filter(placedIn(section, facts.sections));
  const wholeM3 = sectionVolume(section, facts)?.estimateM3 ?? 0;
  const tubesM3 = Math.min(summed(tubes.map(tubeVolume))?.estimateM3 ?? 0, wholeM3);
  return { wholeM3, tubesM3, line: wholeM3 > 0 ? widestWay(tubes) : null };
}

/** Those of several roles lie side by side: the widest way counts. */
function widestWay(tubes: readonly Tube[]): Line | null {
  const roles = [...new Set(tubes.map(({ role }) => role))];
  const ways = roles.flatMap((role) => inOne(tubes.filter((tube) => tube.role === role)));
  return ways.sort((a, b) => resists(a) - resists(b))[0] ?? null;
}

/** As one line, of the bore of the one that resists most; nothing where there is none. */
function inOne(tubes: readonly Tube[]): Line[] {
  const lines = tubes.map((tube) => ({ boreM: boreM(tube), lengthM: tube.lengthM }));
  const [most] = [...lines].sort((a, b) => resists(b) - resists(a));
  if (most === undefined) return [];
  const lengthM = lines.reduce(
    (total, line) => total + line.lengthM * (most.boreM / line.boreM) ** 4,
    0,
  );
  return [{ boreM: most.boreM, lengthM }];
}

function resists({ boreM: bore, lengthM }: Line): number {
  return lengthM / bore ** 4;
}
