/** What a message says, or why it says nothing: parsed at the border, so that inside no doubt is left. */
import { z } from 'zod';
import {
  vanDeletedSchema,
  vanFactsSchema,
  vanInventorySchema,
  vanOutlookSchema,
  vanReadingsSchema,
  vanStateSchema,
} from '../../../protocol/van-messages.ts';
import { readTopic, type RecordingKey, type VanMessageKind } from '../../../protocol/van-topics.ts';

const SCHEMAS = {
  state: vanStateSchema,
  facts: vanFactsSchema,
  readings: vanReadingsSchema,
  deleted: vanDeletedSchema,
  inventory: vanInventorySchema,
  outlook: vanOutlookSchema,
} as const;
type Told = keyof typeof SCHEMAS;

export type VanMessage = {
  [Kind in Told]: {
    readonly kind: Kind;
    readonly van: string;
    readonly body: z.infer<(typeof SCHEMAS)[Kind]>;
  };
}[Told];

/** Said by the office itself, or an empty message by which a broker forgets what it retained. */
export type Unsaid = 'nothing';

export type Understood = VanMessage | { readonly kind: 'refused'; readonly reason: string };

export function understood(topic: string, payload: Buffer): Understood | Unsaid {
  const place = readTopic(topic);
  if (place === null) return { kind: 'refused', reason: 'no topic of ours' };
  const { van, kind } = place;
  if (kind === 'asked' || payload.length === 0) return 'nothing';
  try {
    return withBody(van, kind, JSON.parse(payload.toString('utf8')));
  } catch (error) {
    const reason = error instanceof z.ZodError ? z.prettifyError(error) : String(error);
    return { kind: 'refused', reason: reason.slice(0, 500) };
  }
}

function withBody(van: string, kind: Exclude<VanMessageKind, 'asked'>, json: unknown): VanMessage {
  switch (kind) {
    case 'state':
      return { kind, van, body: SCHEMAS.state.parse(json) };
    case 'facts':
      return { kind, van, body: SCHEMAS.facts.parse(json) };
    case 'readings':
      return { kind, van, body: SCHEMAS.readings.parse(json) };
    case 'deleted':
      return { kind, van, body: SCHEMAS.deleted.parse(json) };
    case 'inventory':
      return { kind, van, body: SCHEMAS.inventory.parse(json) };
    case 'outlook':
      return { kind, van, body: SCHEMAS.outlook.parse(json) };
  }
}

/** The recordings that a message is of. */
export function keysOf({ kind, body }: VanMessage): readonly RecordingKey[] {
  switch (kind) {
    case 'state':
      return [];
    case 'facts':
      return [{ recordingId: body.recording.id, startedAtMs: body.recording.startedAtMs }];
    case 'inventory':
      return body.recordings;
    case 'readings':
    case 'deleted':
    case 'outlook':
      return [body];
  }
}
