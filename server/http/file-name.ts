/**
 * What a file that is taken away is called. It sorts by time and says what it is; only small letters, digits,
 * hyphens and one point, which every system and every mail program leaves as they are.
 */

import type { Job } from '../../protocol/job.ts';
import { partOf } from '../../protocol/part-of-recording.ts';
import type { Recording } from '../../protocol/recording.ts';

const LONGEST_WORDS = 60;

/**
 * @param atMs wall clock, written in UTC: so names sort the same in every zone, and on both sides of a change
 *   to summer time
 * @param words what it is; may be anything that somebody typed
 * @param extension 'csv'
 */
function fileName(atMs: number, words: readonly (string | number)[], extension: string): string {
  const stamp = new Date(atMs).toISOString().slice(0, 19).replaceAll(/[:T]/gu, '-');
  const plain = words.map((word) => plainWords(String(word))).filter((word) => word !== '');
  return `${[stamp, ...plain].join('-')}.${extension}`;
}

/** '2026-11-26-17-03-11-sensor-12-full.csv'; of one job of several '2026-11-28-08-00-00-sensor-12-job-71.csv' */
export function recordingFileName(
  { id, origin, startedAtMs }: Pick<Recording, 'id' | 'origin' | 'startedAtMs'>,
  job: Job,
  words: readonly (string | number)[],
  extension: string,
): string {
  const part = partOf(job);
  const ofJob = part === null ? [] : ['job', part.beginMark];
  const beganMs = startedAtMs + Math.floor(job.fromS * 1000);
  return fileName(beganMs, [origin, id, ...ofJob, ...words], extension);
}

/** '2026-11-26-17-03-11-ebbline-record.sqlite' */
export function backupName(atMs: number): string {
  return fileName(atMs, ['ebbline', 'record'], 'sqlite');
}

/** The header that makes a browser keep the answer under a name (RFC 6266; letters of any language by RFC 8187). */
export function asDownload(name: string): Record<'content-disposition', string> {
  const ascii = name
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .replaceAll(/[^\w.-]+/gu, '-')
    .replaceAll(/-+/gu, '-');
  const whole = name === ascii ? '' : `; filename*=UTF-8''${encodeURIComponent(name)}`;
  return { 'content-disposition': `attachment; filename="${ascii}"${whole}` };
}

/** 'Café Überall, 2. Stock' is 'cafe-uberall-2-stock'. */
function plainWords(text: string): string {
  return text
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/gu, '-')
    .slice(0, LONGEST_WORDS)
    .replaceAll(/^-+|-+$/gu, '');
}
