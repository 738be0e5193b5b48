/** Room for names and signatures; a rehearsal has nothing to sign. */
import { type Markup, markup } from '../figure/markup.ts';
import type { Speech } from '../words/speech.ts';
import { paragraph, section } from './page-parts.ts';

export function writeSignOff(rehearsal: boolean, { wording }: Speech): Markup {
  const words = wording.report;
  if (rehearsal) return section(words.signOff, paragraph(words.noSignOff, 'caution'));
  const headings = words.signColumns.map((name) => markup`<th scope="col">${name}</th>`);
  const rows = words.signers.map((signer) => {
    const blanks = words.signColumns.map(() => markup`<td></td>`);
    return markup`<tr><th scope="row">${signer}</th>${blanks}</tr>`;
  });
  return section(
    words.signOff,
    markup`<table class="sign"><thead><tr><td></td>${headings}</tr></thead><tbody>${rows}</tbody></table>`,
  );
}
