/** The look, on the button that changes it. */
import type { Wording } from './english.ts';
import type { Speech } from './speech.ts';

type Look = keyof Wording['settings']['looks'];

export function sayLook(shown: Look, next: Look, { wording }: Speech): string {
  const { looks } = wording.settings;
  return wording.header.look({ shown: looks[shown], next: looks[next] });
}
