/** Finds letters that did not come out of the wording, in a text said in the bracketed language. */

/** Signs of units and of file formats, the same in every language, and the name of the program. */
const SIGNS = new Set(
  'Ebbline s min h g kg m mm cm L mL Pa kPa MPa psi mbar Torr inHg bar C F cfm dBm UTC CSV GET English Español'.split(
    ' ',
  ),
);
/** A refrigerant by its number; a letter for which cell of a day; a date, as the locale writes it. */
const DATA = /\bR-?\d+[A-Za-z()]*|\bhttps?:\S+|\b\d{1,2} \p{L}{3,4}\.? \d{4}\b/gu;

/** @param data names and texts that people or files gave */
export function unspoken(text: string, data: readonly string[] = []): string[] {
  return outside(text).filter((part) => {
    const rest = data.reduce((left, known) => left.replaceAll(known, ' '), part.replace(DATA, ' '));
    const words = rest.match(/\p{L}+/gu) ?? [];
    return words.some((word) => !SIGNS.has(word));
  });
}

/** The stretches of a text that stand in no bracket, or in one for what was put into a sentence. */
function outside(text: string): string[] {
  const open: string[] = [];
  const parts: string[] = [];
  let part = '';
  const end = () => {
    if (part.trim() !== '') parts.push(part.trim());
    part = '';
  };
  for (const sign of text) {
    if (sign === '⟦' || sign === '⟨') {
      end();
      open.push(sign);
    } else if (sign === '⟧' || sign === '⟩') {
      end();
      open.pop();
    } else if (open.at(-1) !== '⟦') part += sign;
  }
  end();
  return parts;
}
