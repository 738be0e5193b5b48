/** Which part of the system the sensor saw in a hold, and how large that is, by what was marked and entered. */
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import { type SheetEntry, sheetFromEntries } from '../../../protocol/sheet.ts';

export type SeenPart =
  | { readonly kind: 'system' | 'stub' | 'pump_side' }
  /** An empty name: nobody said which. */
  | { readonly kind: 'section'; readonly name: string };

/** A section as the map of the system has it. */
interface KnownSection {
  readonly name: string;
  readonly volumeM3: number | null;
}

export interface Span {
  readonly fromS: number;
  readonly toS: number;
}

/** Whoever shuts a valve says within so long which one it was. A setting of ours. */
const SAID_WITHIN_S = 60;

/**
 * Said up to the beginning of a hold or shortly after: what is said later is of the next one, as that is being prepared.
 * @param entries in the order in which they came
 */
export function partSeen(
  marks: readonly Mark[],
  entries: readonly SheetEntry[],
  { fromS, toS }: Span,
): SeenPart {
  if (lastOf(STUB, marks, fromS) === 'stub_shut') return { kind: 'stub' };
  const saidToS = fromS + SAID_WITHIN_S;
  const entered = partOf(
    entries,
    ({ elapsedS }) => elapsedS <= fromS || (elapsedS <= saidToS && elapsedS < toS),
  );
  const isPart = lastOf(INNER, marks, fromS) === 'sections_shut';
  return isPart && entered.kind === 'system' ? { kind: 'section', name: '' } : entered;
}

/** What tells that the sensor sees this part from now on: valves that are opened for it, and the one that is shut. */
export function marksToSee(part: SeenPart, marks: readonly Mark[]): MarkKind[] {
  if (part.kind === 'stub') return ['stub_shut'];
  const opened: MarkKind[] = [
    ...(lastOf(STUB, marks, Infinity) === 'stub_shut' ? (['stub_opened'] as const) : []),
    ...(part.kind === 'system' && lastOf(INNER, marks, Infinity) === 'sections_shut'
      ? (['sections_opened'] as const)
      : []),
  ];
  return opened.length > 0 ? opened : ['part_seen'];
}

const STUB: readonly MarkKind[] = ['stub_shut', 'stub_opened'];
const INNER: readonly MarkKind[] = ['sections_shut', 'sections_opened'];

function lastOf(kinds: readonly MarkKind[], marks: readonly Mark[], untilS: number) {
  return marks
    .filter(({ kind, elapsedS }) => kinds.includes(kind) && elapsedS <= untilS)
    .reduce<Mark | null>(
      (last, mark) => (mark.elapsedS >= (last?.elapsedS ?? 0) ? mark : last),
      null,
    )?.kind;
}

/** A section by what it is called now: a name that was entered stays a fact, and the section may have got another one. */
function partOf(
  entries: readonly SheetEntry[],
  isSaid: (entry: SheetEntry, at: number) => boolean,
): SeenPart {
  const { sensorSees, seenSection } = sheetFromEntries(entries.filter(isSaid));
  switch (sensorSees) {
    case 'section': {
      const at = entries.findLastIndex((entry, place) => {
        return entry.fields.seenSection !== undefined && isSaid(entry, place);
      });
      return { kind: 'section', name: nameNow(seenSection, entries.slice(at + 1)) };
    }
    case 'stub':
    case 'pump_side':
      return { kind: sensorSees };
    case 'system':
    case 'unknown':
      return { kind: 'system' };
  }
}

/** @param later what was entered after the name was */
function nameNow(name: string, later: readonly SheetEntry[]): string {
  return later.reduce((known, { fields }) => {
    const renamed = fields.sections?.find(({ was }) => was !== undefined && was === known);
    return renamed?.name ?? known;
  }, name);
}

/**
 * By the map where it knows the section; else a volume is that of what the sensor saw when it was entered, and of
 * nothing else: a system's volume in the place of a section's would make a leak of any size of it.
 */
export function volumeOf(
  part: SeenPart,
  entries: readonly SheetEntry[],
  sections: readonly KnownSection[],
): number | null {
  const { stubVolumeM3 } = sheetFromEntries(entries);
  if (part.kind === 'stub' && stubVolumeM3 !== null) return stubVolumeM3;
  const known = part.kind === 'section' && sections.find(({ name }) => name === part.name);
  if (known && known.volumeM3 !== null) return known.volumeM3;
  let volumeM3: number | null = null;
  for (const [at, { fields }] of entries.entries()) {
    if (fields.volumeM3 === undefined) continue;
    const seen = partOf(entries, (_, place) => place <= at);
    // While the pump is tried out nobody enters its volume, but that of what is to be pumped.
    const isOf: SeenPart = seen.kind === 'pump_side' ? { kind: 'system' } : seen;
    if (isSame(isOf, part)) volumeM3 = fields.volumeM3;
  }
  return volumeM3;
}

/** All sections that somebody has named, on the map or when isolating one. */
export function sectionNames(entries: readonly SheetEntry[]): string[] {
  const { sections } = sheetFromEntries(entries);
  const named = entries.flatMap(({ fields: { seenSection } }, at) =>
    seenSection === undefined ? [] : nameNow(seenSection, entries.slice(at + 1)),
  );
  const all = [...sections.map(({ name }) => name), ...named];
  return [...new Set(all)].filter((name) => name !== '');
}

function isSame(a: SeenPart, b: SeenPart): boolean {
  if (a.kind !== b.kind) return false;
  return a.kind !== 'section' || (b.kind === 'section' && a.name === b.name);
}
