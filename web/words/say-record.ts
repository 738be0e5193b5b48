/** That readings are not being kept, or that the record was damaged: what it means and what to do. */
import type { ProblemCode } from '../../protocol/problems.ts';
import type { RecordState } from '../../protocol/record-state.ts';
import { sayCount } from './say-number.ts';
import type { Speech } from './speech.ts';

export interface RecordWords {
  readonly meaning: string;
  readonly remedy: string;
  /** How many, and where. */
  readonly detail: string;
}

/** @returns null where all is as it should be */
export function sayRecord(state: RecordState, speech: Speech): RecordWords | null {
  const { problems, record } = speech.wording;
  const told = (code: ProblemCode, detail: string) => ({ ...problems[code], detail });
  switch (state.kind) {
    case 'kept':
      return null;
    case 'held':
    case 'stalled': {
      const waiting = sayCount(state.waiting, speech);
      const code = state.kind === 'held' ? 'write_failed' : 'write_stalled';
      if (state.refused === 0) return told(code, record.waiting({ waiting }));
      const refused = sayCount(state.refused, speech);
      const detail = record.refused({ waiting, refused });
      return told('readings_refused', detail);
    }
    case 'damaged':
      return told('record_damaged', record.keptAside({ file: state.file }));
    case 'salvaged': {
      const { readings, otherFacts, folder } = state;
      const detail = record.salvaged({
        saved: sayCount(readings.saved, speech),
        atLeast: sayCount(readings.atLeast, speech),
        otherSaved: sayCount(otherFacts.saved, speech),
        otherAtLeast: sayCount(otherFacts.atLeast, speech),
        folder,
      });
      return told('record_salvaged', detail);
    }
  }
}
