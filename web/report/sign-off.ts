/** Room for names and signatures; a rehearsal has nothing to sign. */
import type { Speech } from '../words/speech.ts';
import { paragraph, section, type Section } from './report-document.ts';

export function signOffSection(rehearsal: boolean, { wording }: Speech): Section {
  const words = wording.report;
  if (rehearsal) return section(words.signOff, paragraph(words.noSignOff, 'caution'));
  const cells = words.signColumns.map(() => '');
  return section(words.signOff, {
    kind: 'sign_off',
    columns: words.signColumns,
    rows: words.signers.map((signer) => ({ signer, cells })),
  });
}
