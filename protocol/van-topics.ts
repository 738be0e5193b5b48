/** Where at a broker the messages of a van stand. `van-topics.md` is the same for whoever reads them. */
import { z } from 'zod';

/** Raised whenever a message changes its meaning: then all topics are other ones. */
const VAN_TOPICS_VERSION = 1;
const ROOT = `ebbline/${VAN_TOPICS_VERSION}`;

/** What all vans publish. */
export const ALL_VANS = `${ROOT}/+/#`;

/** A van's name is a level of the topics, and at most brokers the name that it logs in by as well. */
export const vanSchema = z.string().regex(/^[a-z0-9][a-z0-9-]{0,39}$/u);

/** Which recording of a van: a number alone might stand for another one, once a data folder was begun anew. */
export const recordingKeySchema = z.object({
  recordingId: z.int().min(1),
  /** Wall-clock time of data time zero, milliseconds since 1970 UTC. */
  startedAtMs: z.int(),
});
export type RecordingKey = z.infer<typeof recordingKeySchema>;

/** What is said of a recording, and of a van. */
const OF_RECORDING = ['facts', 'readings', 'deleted', 'outlook'] as const;
const OF_VAN = ['state', 'inventory', 'asked'] as const;
export type VanMessageKind = (typeof OF_RECORDING)[number] | (typeof OF_VAN)[number];

export function recordingTopic(
  van: string,
  { recordingId, startedAtMs }: RecordingKey,
  kind: (typeof OF_RECORDING)[number],
): string {
  return `${ROOT}/${van}/recordings/${startedAtMs}-${recordingId}/${kind}`;
}

export function vanTopic(van: string, kind: (typeof OF_VAN)[number]): string {
  return `${ROOT}/${van}/${kind}`;
}

/** @returns null where no message of ours stands */
export function readTopic(topic: string): { van: string; kind: VanMessageKind } | null {
  const [product, version, van, ...rest] = topic.split('/');
  if (`${product}/${version}` !== ROOT || !vanSchema.safeParse(van).success) return null;
  const isOfRecording = rest.length === 3 && rest[0] === 'recordings';
  const last = rest.at(-1);
  const kind = isOfRecording
    ? OF_RECORDING.find((one) => one === last)
    : OF_VAN.find((one) => rest.length === 1 && one === last);
  return kind === undefined || van === undefined ? null : { van, kind };
}
