/** The file that was chosen and is being looked at, or none. */
import { signal } from '@preact/signals';
import { MOST_IMPORT_BYTES } from '../../protocol/api.ts';
import type { Failure } from '../words/say-failure.ts';
import { textFrom } from './split-file.ts';

interface ChosenFile {
  readonly name: string;
  readonly text: string;
}

export const chosenFile = signal<ChosenFile | null>(null);

/** @returns what is wrong with it, or null */
export async function chooseFile(file: File): Promise<Failure | null> {
  if (file.size > MOST_IMPORT_BYTES) return { code: 'readings_file_too_large', detail: '' };
  const bytes = new Uint8Array(await file.arrayBuffer());
  chosenFile.value = { name: file.name, text: textFrom(bytes) };
  return null;
}
