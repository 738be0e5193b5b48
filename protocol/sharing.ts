/** Other screens on the local network: what they may do, how they are paired, and what the laptop is told of them. */
import { z } from 'zod';

/** What a screen may do; each may do what the one before it may. The laptop itself is the owner. */
const ROLES = ['watch', 'assist', 'owner'] as const;
export type Role = (typeof ROLES)[number];

/** Those that can be given to another screen. */
export const PAIRED_ROLES = ['watch', 'assist'] as const;
export type PairedRole = (typeof PAIRED_ROLES)[number];

export function mayDo(role: Role, leastRole: Role): boolean {
  return ROLES.indexOf(role) >= ROLES.indexOf(leastRole);
}

/** Signs that nobody takes for another one: no I and 1, no O and 0. */
export const TYPED_CODE_SIGNS = '23456789ABCDEFGHJKLMNPQRSTUVWXYZ';
export const TYPED_CODE_LENGTH = 8;

/** A code as somebody typed it, in any case, with whatever stands between its signs. */
export function plainTypedCode(typed: string): string {
  return typed.toUpperCase().replaceAll(/[\s-]/gu, '');
}

/** What stands before the secret in the fragment of an address: a browser never sends it on. */
export const PAIRING_FRAGMENT = '#pair=';

/** GET /api/this-screen: what the screen that asks may do, and how it was called when it was paired. */
export const thisScreenSchema = z.strictObject({ role: z.enum(ROLES), name: z.string() });
export type ThisScreen = z.infer<typeof thisScreenSchema>;

/** POST /api/sharing/codes */
export const newPairingSchema = z.strictObject({ role: z.enum(PAIRED_ROLES) });

/** Its answer: a code that is good for one screen, once, and not for long. */
export const pairingSchema = z.strictObject({
  role: z.enum(PAIRED_ROLES),
  /** For the QR code. */
  secret: z.string(),
  /** For typing; `TYPED_CODE_SIGNS` alone. */
  typed: z.string(),
  /** Wall-clock milliseconds since 1970 UTC. */
  expiresAtMs: z.int(),
});
export type Pairing = z.infer<typeof pairingSchema>;

/** What a screen is called is shown on another one: nothing in it may be unseen or turn the line round. */
const screenName = z
  .string()
  .trim()
  .min(1)
  .max(60)
  .regex(/^[^\p{Cc}\p{Cf}]+$/u, 'letters, digits and signs that can be seen');

/** POST /api/pair, answered by what GET /api/this-screen then says, with the session as a cookie. */
export const pairWishSchema = z.strictObject({ code: z.string().min(1).max(64), name: screenName });
export type PairWish = z.infer<typeof pairWishSchema>;

const sharedScreenSchema = z.strictObject({
  id: z.int().min(1),
  name: z.string(),
  role: z.enum(PAIRED_ROLES),
  /** Wall-clock milliseconds since 1970 UTC. */
  pairedAtMs: z.int(),
  lastSeenAtMs: z.int(),
  /** Whether it has a connection now. */
  connected: z.boolean(),
});
export type SharedScreen = z.infer<typeof sharedScreenSchema>;

/** GET /api/sharing */
export const sharingStateSchema = z.discriminatedUnion('on', [
  z.strictObject({ on: z.literal(false) }),
  z.strictObject({
    on: z.literal(true),
    /** Of the page, on the local network; none while there is no such network. */
    addresses: z.array(z.string()),
    /** SHA-256 of the certificate, for comparing; empty while there is none. */
    fingerprint: z.string(),
    screens: z.array(sharedScreenSchema),
  }),
]);
export type SharingState = z.infer<typeof sharingStateSchema>;
