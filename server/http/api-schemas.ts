/** The names under which the API's shapes stand in its document, and their JSON Schemas. */
import { z } from 'zod';
import {
  apiErrorSchema,
  callSchema,
  givenLabelSchema,
  healthSchema,
  recordingDetailSchema,
  recordingListSchema,
  rehearsalListSchema,
  resultListSchema,
  revealSchema,
  sensorLabelListSchema,
} from '../../protocol/api.ts';
import { preparedSheetListSchema, preparedSheetSchema } from '../../protocol/prepared-sheet.ts';
import { markSchema } from '../../protocol/mark.ts';
import { readingColumnsSchema } from '../../protocol/reading.ts';
import { recordingJsonSchema } from '../../protocol/recording-json.ts';
import { restoredSchema } from '../../protocol/restored.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { seenAlertSchema } from '../../protocol/seen-alert.ts';
import { sheetEntrySchema } from '../../protocol/sheet.ts';
import { sourceStateSchema } from '../../protocol/source-state.ts';
import { clientMessageSchema, serverMessageSchema } from '../../protocol/stream.ts';
import { takenBackSchema } from '../../protocol/typed-in.ts';
import { verifiedSchema } from '../../protocol/verified.ts';

const NAMED = {
  Call: callSchema,
  ClientMessage: clientMessageSchema,
  Failure: apiErrorSchema,
  GivenLabel: givenLabelSchema,
  Health: healthSchema,
  Mark: markSchema,
  PreparedSheet: preparedSheetSchema,
  PreparedSheetList: preparedSheetListSchema,
  ReadingColumns: readingColumnsSchema,
  Recording: recordingSchema,
  RecordingFile: recordingJsonSchema,
  Restored: restoredSchema,
  RecordingDetail: recordingDetailSchema,
  RecordingList: recordingListSchema,
  RehearsalList: rehearsalListSchema,
  ResultList: resultListSchema,
  Reveal: revealSchema,
  SeenAlert: seenAlertSchema,
  SensorLabelList: sensorLabelListSchema,
  ServerMessage: serverMessageSchema,
  SheetEntry: sheetEntrySchema,
  SourceState: sourceStateSchema,
  TakenBack: takenBackSchema,
  Verified: verifiedSchema,
} as const satisfies Readonly<Record<string, z.ZodType>>;

const names = z.registry<{ id: string }>();
for (const [id, schema] of Object.entries(NAMED)) names.add(schema, { id });

/** Null where it has no name. */
export function nameOf(schema: z.ZodType): string | null {
  return names.get(schema)?.id ?? null;
}

/** All of them, as they are answered; each refers to the others by name. */
export function namedSchemas(): Record<string, unknown> {
  const { schemas } = z.toJSONSchema(names, { uri: (id) => `#/components/schemas/${id}` });
  return Object.fromEntries(
    Object.entries(schemas)
      .sort(([a], [b]) => a.localeCompare(b, 'en'))
      .map(([id, schema]) => [id, withoutPlace(schema)]),
  );
}

/** One shape, whole, where it stands. @param io what is taken (defaults may be missing), or what is given */
export function schemaOf(schema: z.ZodType, io: 'input' | 'output'): Record<string, unknown> {
  return withoutPlace(z.toJSONSchema(schema, { io }));
}

/** Within a document a schema's place is that document's, and so is its dialect. */
function withoutPlace(schema: object): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(schema).filter(([keyword]) => keyword !== '$schema' && keyword !== '$id'),
  );
}
