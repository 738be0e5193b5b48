/** Which paper a report is made for: the chosen one, or what is usual where the browser's language is spoken. */
import { computed } from '@preact/signals';
import type { Paper } from '../../protocol/api.ts';
import { choices } from './choices.ts';

/** Where paper is of North American size: Unicode CLDR, supplemental data, paperSize US-Letter. */
const LETTER_REGIONS: ReadonlySet<string> = new Set(
  'BZ CA CL CO CR GT MX NI PA PH PR SV US VE'.split(' '),
);

export const paper = computed<Paper>(() => {
  const chosen = choices.value.paper;
  return chosen === 'system' ? usualPaper(navigator.languages) : chosen;
});

/** @param languages tags as the browser has them, the first one liked best: 'es-MX', 'en' */
export function usualPaper(languages: readonly string[]): Paper {
  const regions = languages.flatMap((tag) => /-([a-z]{2})(?:-|$)/iu.exec(tag)?.[1] ?? []);
  const [region] = regions;
  return region !== undefined && LETTER_REGIONS.has(region.toUpperCase()) ? 'Letter' : 'A4';
}
