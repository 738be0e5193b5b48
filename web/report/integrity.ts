/** Whether the facts of the report are as they were recorded: what the chain over them shows, and what not. */
import { partOf } from '../../protocol/part-of-recording.ts';
import { sayCount } from '../words/say-number.ts';
import { type Block, paragraph, section, type Section } from './report-document.ts';
import type { Report } from './report-model.ts';

/** Before anything else, where they are not. */
export function brokenBanner({ verified, speech }: Report): Block | null {
  if (verified.broken === null) return null;
  const { broken, brokenHow } = speech.wording.report.integrity;
  return { kind: 'banner', name: broken, statement: brokenHow };
}

/** Of what is left the hashes may hold: that is not all that was recorded. */
export function salvagedBanner(report: Report): Block | null {
  if (report.salvages.length === 0) return null;
  const { salvaged, mayChange } = report.speech.wording.report.integrity;
  return { kind: 'banner', name: salvaged, statement: `${sayLost(report)} ${mayChange}` };
}

export function integritySection(report: Report): Section {
  const { job, verified, salvages, speech } = report;
  const words = speech.wording.report.integrity;
  const { broken, facts, addedLater, deleted, hash } = verified;
  if (broken !== null) {
    const { what, link, where } = broken;
    const place = words.brokenAt({ what: words.breaks[what], link: String(link ?? '–'), where });
    return section(words.title, paragraph(words.brokenHow, 'caution'), paragraph(place));
  }
  const unbroken = partOf(job) === null ? words.unbroken : words.unbrokenWithJob;
  const later = addedLater === 0 ? '' : words.addedLater({ facts: String(addedLater) });
  return section(
    words.title,
    ...(salvages.length === 0
      ? [paragraph(unbroken({ facts: String(facts) }))]
      : [
          paragraph(`${words.notAll} ${sayLost(report)}`, 'caution'),
          paragraph(words.remains({ facts: String(facts) })),
        ]),
    paragraph(later),
    paragraph(deleted === 0 ? '' : words.deleted({ facts: String(deleted) })),
    hash === '' ? null : { kind: 'hash', text: groupsOf(hash).join(' ') },
    paragraph(words.proves, 'quiet'),
    paragraph(words.provesNot, 'quiet'),
  );
}

function sayLost({ salvages, speech }: Report): string {
  const sentences = salvages.map(({ readings, otherFacts }) =>
    speech.wording.report.integrity.saved({
      saved: sayCount(readings.saved, speech),
      atLeast: sayCount(readings.atLeast, speech),
      otherSaved: sayCount(otherFacts.saved, speech),
      otherAtLeast: sayCount(otherFacts.atLeast, speech),
    }),
  );
  return sentences.join(' ');
}

/** Enough of the hash to tell records apart at a glance; none of a record that is not as it was. */
export function shortHash({ verified: { broken, hash } }: Report): string {
  return broken === null ? groupsOf(hash).slice(0, 2).join(' ') : '';
}

function groupsOf(hash: string): readonly string[] {
  return hash.match(/.{1,8}/gu) ?? [];
}
