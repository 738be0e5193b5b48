/** What a section was called keeps leading to it once it has another name on the map. Pure. */
import type { Sheet } from '../../protocol/sheet.ts';
import type { RigFacts } from './internal-volume.ts';
import { named, nameOf, type VolumeDraft } from './volume-draft.ts';

/**
 * What is entered on the sheet, with the former names: what was recorded under one of them stays as it is.
 * @param facts as read from the draft
 * @param sheet as it stands
 */
export function enteredMap(
  draft: VolumeDraft,
  facts: RigFacts,
  sheet: Pick<Sheet, 'sections' | 'seenSection'>,
): RigFacts & Partial<Pick<Sheet, 'seenSection'>> {
  const sections = facts.sections.map((section, at) => {
    const was = draft.sections[at]?.key;
    const isRenamed = was !== section.name && sheet.sections.some(({ name }) => name === was);
    return isRenamed ? { ...section, was } : section;
  });
  const seen = sections.find(({ was }) => was !== undefined && was === sheet.seenSection);
  return { ...facts, sections, ...(seen === undefined ? {} : { seenSection: seen.name }) };
}

/** As it goes on once a state of it is entered: each section goes by the name that it was entered with. */
export function rekeyed(draft: VolumeDraft, entered: VolumeDraft): VolumeDraft {
  const rows = named(draft, entered);
  const sections = rows.sections.map((row) => ({ ...row, key: nameOf(entered, row.key).trim() }));
  return { ...rows, sections };
}
