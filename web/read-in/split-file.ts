/** A file of cells: its text, its lines, its separators. Pure. */

export const SEPARATORS = [';', '\t', ','] as const;
export type Separator = (typeof SEPARATORS)[number];

export interface TableLine {
  /** In the file, from 1 on; of a line that goes on in quotation marks, its first. */
  readonly lineNumber: number;
  readonly cells: readonly string[];
}

/** Which letters a file is written in: its first two bytes say so, or it is UTF-8. */
export function textFrom(bytes: Uint8Array): string {
  const isUtf16 = bytes[0] === 0xff && bytes[1] === 0xfe;
  return new TextDecoder(isUtf16 ? 'utf-16le' : 'utf-8').decode(bytes);
}

/**
 * Lines that have anything in them, as cells without the white space around them. A cell in quotation
 * marks may hold separators and line ends, and a doubled mark is one (RFC 4180, section 2).
 */
export function* splitFile(file: string, separator: Separator): Generator<TableLine> {
  // Lines may end in a carriage return alone.
  const text = file.includes('\n') ? file : file.replaceAll('\r', '\n');
  let lineNumber = 0;
  let from = text.startsWith('\ufeff') ? 1 : 0;
  while (from < text.length) {
    const firstLine = lineNumber + 1;
    let end = endOfLine(text, from);
    lineNumber += 1;
    // An odd number of marks: the line goes on. One that is never closed ends with its line.
    if (isOpen(text.slice(from, end))) {
      let farther = end;
      let more = 0;
      while (farther < text.length && more < MOST_LINES_IN_A_CELL) {
        farther = endOfLine(text, nextLine(text, farther));
        more += 1;
        if (isOpen(text.slice(from, farther))) continue;
        end = farther;
        lineNumber += more;
        break;
      }
    }
    const line = text.slice(from, end);
    from = nextLine(text, end);
    if (line.trim() !== '') yield { lineNumber: firstLine, cells: cellsOf(line, separator) };
  }
}

/** A stray quotation mark must not swallow the file: a setting of ours. */
const MOST_LINES_IN_A_CELL = 20;

function endOfLine(text: string, from: number): number {
  const feed = text.indexOf('\n', from);
  const end = feed === -1 ? text.length : feed;
  return end > from && text[end - 1] === '\r' ? end - 1 : end;
}

function nextLine(text: string, end: number): number {
  return text[end] === '\r' && text[end + 1] === '\n' ? end + 2 : end + 1;
}

function isOpen(line: string): boolean {
  return line.includes('"') && (line.split('"').length - 1) % 2 === 1;
}

function cellsOf(line: string, separator: Separator): string[] {
  if (!line.includes('"')) return line.split(separator).map((cell) => cell.trim());
  const cells: string[] = [];
  let cell = '';
  let isQuoted = false;
  for (const letter of line) {
    if (letter === '"') isQuoted = !isQuoted;
    if (letter === separator && !isQuoted) {
      cells.push(cell);
      cell = '';
    } else cell += letter;
  }
  return [...cells, cell].map(unquoted);
}

function unquoted(cell: string): string {
  const plain = cell.trim();
  return /^".*"$/su.test(plain) ? plain.slice(1, -1).replaceAll('""', '"').trim() : plain;
}
