/** The file that was chosen: what kind it is, and the one that is being looked at, or none. */
import { signal } from '@preact/signals';
import { MOST_IMPORT_BYTES } from '../../protocol/api.ts';
import { FULL_CSV_HEADER, isFullCsv } from '../../protocol/full-csv.ts';
import { MOST_BACKUP_BYTES } from '../../protocol/restored.ts';
import type { Failure } from '../words/say-failure.ts';
import { textFrom } from './split-file.ts';

interface ChosenFile {
  readonly name: string;
  readonly text: string;
}

export const chosenFile = signal<ChosenFile | null>(null);

/** Of a whole recording or record there is nothing to choose; rows of a logger are looked at first. */
export type FileKind = 'rows' | 'whole_json' | 'whole_csv' | 'backup';

const SQLITE = 'SQLite format 3\0';

/** By how it begins: names of files are changed. */
export async function kindOf(file: File): Promise<FileKind> {
  const start = await file.slice(0, FULL_CSV_HEADER.length + 3).text();
  if (start.startsWith(SQLITE)) return 'backup';
  if (/^\uFEFF?\s*\{/u.test(start)) return 'whole_json';
  return isFullCsv(start) ? 'whole_csv' : 'rows';
}

/** The bridge would hang up in the middle of it, and the reason would be lost. @returns null: it is not */
export function tooLarge(file: File, kind: FileKind): Failure | null {
  if (kind === 'backup') {
    return file.size > MOST_BACKUP_BYTES ? { code: 'backup_too_large', detail: '' } : null;
  }
  return file.size > MOST_IMPORT_BYTES ? { code: 'readings_file_too_large', detail: '' } : null;
}

/** Rows: they are looked at before anything is kept of them. */
export async function chooseRows(file: File): Promise<void> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  chosenFile.value = { name: file.name, text: textFrom(bytes) };
}
