/** What was said of a recording, as it goes to the office; people's names only where that is wished. */
import { createHash } from 'node:crypto';
import { isSimulated, type Recording } from '../../../protocol/recording.ts';
import type { SheetEntry } from '../../../protocol/sheet.ts';
import type { VanFacts } from '../../../protocol/van-messages.ts';
import type { VanRecord } from './van-record.ts';

type Facts = Omit<VanFacts, 'version'>;

export function factsOf(record: VanRecord, recording: Recording, withPeople: boolean): Facts {
  const { id } = recording;
  const sheet = record.sheet(id);
  return {
    recording,
    simulated: isSimulated(recording),
    marks: record.marks(id),
    sheet: withPeople ? sheet : sheet.flatMap(withoutPeople),
    signOffs: withPeople ? record.signOffs(id) : [],
    takenBack: record.takenBack(id).map(({ index }) => index),
    deleted: record.deletedStretches(id),
  };
}

/** The same facts have the same. */
export function hashOf(facts: Facts): string {
  return createHash('sha256').update(JSON.stringify(facts)).digest('base64');
}

function withoutPeople({ elapsedS, fields }: SheetEntry): SheetEntry[] {
  const kept = { ...fields };
  delete kept.people;
  return Object.keys(kept).length === 0 ? [] : [{ elapsedS, fields: kept }];
}
