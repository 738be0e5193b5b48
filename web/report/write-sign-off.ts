/** Room for names and signatures; a rehearsal has nothing to sign. */
import { type Markup, markup } from '../figure/markup.ts';
import { REPORT_WORDS } from '../words/say-report.ts';
import { paragraph, section } from './page-parts.ts';

export function writeSignOff(rehearsal: boolean): Markup {
  if (rehearsal) return section(REPORT_WORDS.signOff, paragraph(REPORT_WORDS.noSignOff, 'caution'));
  const headings = REPORT_WORDS.signColumns.map((name) => markup`<th scope="col">${name}</th>`);
  const rows = REPORT_WORDS.signers.map((signer) => {
    const blanks = REPORT_WORDS.signColumns.map(() => markup`<td></td>`);
    return markup`<tr><th scope="row">${signer}</th>${blanks}</tr>`;
  });
  return section(
    REPORT_WORDS.signOff,
    markup`<table class="sign"><thead><tr><td></td>${headings}</tr></thead><tbody>${rows}</tbody></table>`,
  );
}
