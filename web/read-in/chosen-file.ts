/** The file that was chosen and is being looked at, or none. */
import { signal } from '@preact/signals';
import { MOST_IMPORT_BYTES } from '../../protocol/api.ts';
import { PROBLEMS } from '../../protocol/problems.ts';
import { textFrom } from './split-file.ts';

interface ChosenFile {
  readonly name: string;
  readonly text: string;
}

export const chosenFile = signal<ChosenFile | null>(null);

/** @returns what is wrong with it, in words, or null */
export async function chooseFile(file: File): Promise<string | null> {
  if (file.size > MOST_IMPORT_BYTES) {
    const { meaning, remedy } = PROBLEMS.readings_file_too_large;
    return `${meaning} ${remedy}`;
  }
  const bytes = new Uint8Array(await file.arrayBuffer());
  chosenFile.value = { name: file.name, text: textFrom(bytes) };
  return null;
}
