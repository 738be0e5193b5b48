/** What comes of reckoning the chain of hashes over a recording's facts anew. */
import { z } from 'zod';

export const CHAIN_BREAKS = [
  'link_unreadable',
  'link_missing',
  'goes_on_from_nothing',
  'fact_missing',
  'hash_differs',
  /** A fact that no link knows of. */
  'fact_outside',
] as const;

const chainBreakSchema = z.strictObject({
  what: z.enum(CHAIN_BREAKS),
  /** Number of the first link that does not hold; null where facts stand outside of all links. */
  link: z.int().nullable(),
  /** The facts of that link, or the table of what stands outside. */
  where: z.string(),
});
export type ChainBreak = z.infer<typeof chainBreakSchema>;

/** Answers GET /api/recordings/:id/verified. */
export const verifiedSchema = z.strictObject({
  recordingId: z.int().min(0),
  links: z.int().min(0),
  facts: z.int().min(0),
  /** Facts that the chain took up after they had been recorded: what they were before that it can't tell. */
  addedLater: z.int().min(0),
  /** Facts that were deleted for good: of them the chain has the hashes alone. */
  deleted: z.int().min(0),
  /** Of the last link, hexadecimal; empty where there is none. */
  hash: z.string().max(64),
  /** Null: the facts are those from which the chain was reckoned. */
  broken: chainBreakSchema.nullable(),
});
export type Verified = z.infer<typeof verifiedSchema>;
