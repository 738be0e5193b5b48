/** Files that nobody but whoever runs the bridge may read. */
import { closeSync, fsyncSync, openSync, readFileSync, renameSync, writeSync } from 'node:fs';

const OWNER_ONLY = 0o600;

/** The whole file or the one before it: a power cut leaves no half of one. */
export function writePrivate(path: string, text: string): void {
  const unfinished = `${path}.unfinished`;
  const file = openSync(unfinished, 'w', OWNER_ONLY);
  try {
    writeSync(file, text);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
  renameSync(unfinished, path);
}

/** @returns what stands in it as JSON; null where there is none, or none that can be read */
export function readPrivate(path: string): unknown {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return null;
  }
}
