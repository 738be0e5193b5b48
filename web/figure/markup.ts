/**
 * Text of HTML or SVG, made so that nobody can forget to escape: whatever is put into the template
 * is escaped, unless it is markup made by the same template.
 */
export class Markup {
  readonly text: string;

  /** @param text taken as it is: only for constants, and for what `markup` made */
  constructor(text: string) {
    this.text = text;
  }
}

export type MarkupPiece = string | number | Markup | readonly Markup[];

export function markup(strings: TemplateStringsArray, ...pieces: readonly MarkupPiece[]): Markup {
  const parts = strings.map((fixed, at) => {
    const piece = pieces[at];
    return piece === undefined ? fixed : fixed + textOf(piece);
  });
  return new Markup(parts.join(''));
}

/** In place of what is not there. */
export const NOTHING = new Markup('');

function textOf(piece: MarkupPiece): string {
  if (piece instanceof Markup) return piece.text;
  if (typeof piece === 'object') return piece.map((part) => part.text).join('');
  return escapeText(String(piece));
}

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Characters that neither XML nor HTML allow stand as the sign for 'unreadable'. */
const FORBIDDEN = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffe\uffff]/gu;

function escapeText(text: string): string {
  return text
    .replaceAll(FORBIDDEN, '\ufffd')
    .replaceAll(/[&<>"']/gu, (sign) => ESCAPES[sign] ?? '');
}
