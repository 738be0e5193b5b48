/**
 * A certificate of our own for the local network. No authority vouches for it: a browser warns, and a person compares
 * its fingerprint with the one on the laptop. Made once, kept beside the record, and made anew where an address is
 * not in it or its time is nearly over.
 */
import { X509Certificate } from 'node:crypto';
import { isIP } from 'node:net';
import { join } from 'node:path';
import { z } from 'zod';
import { readPrivate, writePrivate } from './private-file.ts';

const FILE = 'sharing-certificate.json';
const DAY_MS = 24 * 3600_000;
/** More is refused by some browsers (CA/Browser Forum, Baseline Requirements, 6.3.2). */
const LASTS_MS = 397 * DAY_MS;
const RENEWED_BEFORE_MS = 30 * DAY_MS;
/** For a phone whose clock is behind. */
const SLACK_MS = DAY_MS;

const keptSchema = z.strictObject({ certificatePem: z.string(), privateKeyPem: z.string() });

export interface Certificate extends z.infer<typeof keptSchema> {
  /** SHA-256, as browsers show it. */
  readonly fingerprint: string;
}

/** @param hosts addresses and names that it has to be good for */
export async function certificateFor(
  dataFolder: string,
  hosts: readonly string[],
  nowMs: number,
): Promise<Certificate> {
  const path = join(dataFolder, FILE);
  const kept = keptSchema.safeParse(readPrivate(path)).data;
  if (kept !== undefined && isGood(kept.certificatePem, hosts, nowMs)) return withPrint(kept);
  const made = await make(hosts, nowMs);
  writePrivate(path, JSON.stringify(made));
  return withPrint(made);
}

function isGood(certificatePem: string, hosts: readonly string[], nowMs: number): boolean {
  try {
    const certificate = new X509Certificate(certificatePem);
    const isIn = (host: string) =>
      (isIP(host) === 0 ? certificate.checkHost(host) : certificate.checkIP(host)) !== undefined;
    const begun = Date.parse(certificate.validFrom) <= nowMs;
    const lasts = Date.parse(certificate.validTo) - nowMs > RENEWED_BEFORE_MS;
    return begun && lasts && hosts.every(isIn);
  } catch {
    return false;
  }
}

async function make(hosts: readonly string[], nowMs: number): Promise<z.infer<typeof keptSchema>> {
  // Only where one has to be made: most bridges are shared with nobody, and it takes a while to load.
  const { generate } = await import('selfsigned');
  const made = await generate([{ name: 'commonName', value: 'Ebbline' }], {
    keyType: 'ec',
    curve: 'P-256',
    algorithm: 'sha256',
    notBeforeDate: new Date(nowMs - SLACK_MS),
    notAfterDate: new Date(nowMs - SLACK_MS + LASTS_MS),
    extensions: [
      // It vouches for itself alone: whoever has its key can't make others.
      { name: 'basicConstraints', cA: false, critical: true },
      { name: 'keyUsage', digitalSignature: true, critical: true },
      { name: 'extKeyUsage', serverAuth: true },
      {
        name: 'subjectAltName',
        altNames: hosts.map((host) =>
          isIP(host) === 0 ? { type: 2, value: host } : { type: 7, ip: host },
        ),
      },
    ],
  });
  return { certificatePem: made.cert, privateKeyPem: made.private };
}

function withPrint(kept: z.infer<typeof keptSchema>): Certificate {
  return { ...kept, fingerprint: new X509Certificate(kept.certificatePem).fingerprint256 };
}
