/** Whether the facts of the report are as they were recorded: what the chain over them shows, and what not. */
import { type Markup, markup, NOTHING } from '../figure/markup.ts';
import { paragraph, section } from './page-parts.ts';
import type { Report } from './report-model.ts';

/** Before anything else, where they are not. */
export function writeBroken({ verified, speech }: Report): Markup {
  if (verified.broken === null) return NOTHING;
  const { broken, brokenHow } = speech.wording.report.integrity;
  return markup`<div class="banner" role="note"><b>${broken}</b>${brokenHow}</div>`;
}

export function writeIntegrity({ verified, speech }: Report): Markup {
  const words = speech.wording.report.integrity;
  const { broken, facts, addedLater, hash } = verified;
  if (broken !== null) {
    const { what, link, where } = broken;
    const place = words.brokenAt({ what: words.breaks[what], link: String(link ?? '–'), where });
    return section(words.title, paragraph(words.brokenHow, 'caution'), paragraph(place));
  }
  const later = addedLater === 0 ? '' : words.addedLater({ facts: String(addedLater) });
  return section(
    words.title,
    paragraph(words.unbroken({ facts: String(facts) })),
    paragraph(later),
    hash === '' ? NOTHING : markup`<p class="hash">${inGroups(hash)}</p>`,
    paragraph(words.proves, 'quiet'),
    paragraph(words.provesNot, 'quiet'),
  );
}

/** As one reads it out to somebody. */
function inGroups(hash: string): string {
  return hash.match(/.{1,8}/gu)?.join(' ') ?? '';
}
