/** Folders for what is in the making: on the disk of the record, so that there is room where there must be. */
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';

const BEGINNING = 'unfinished-';

export function newWorkFolder(dataFolder: string): string {
  return mkdtempSync(join(dataFolder, BEGINNING));
}

export function removeWorkFolder(folder: string): void {
  rmSync(folder, { recursive: true, force: true });
}

/** Of a bridge that was killed amid it. */
export function removeForgottenWork(dataFolder: string): void {
  if (!existsSync(dataFolder)) return;
  for (const name of readdirSync(dataFolder)) {
    if (name.startsWith(BEGINNING)) removeWorkFolder(join(dataFolder, name));
  }
}
