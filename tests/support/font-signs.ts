/** Which signs a TrueType font has a shape for, read from the font itself. */
import { readFileSync } from 'node:fs';

/** OpenType 1.9.1, cmap, format 4: segments of the basic plane. */
const SEGMENTS = 4;

export function signsOf(file: string): (sign: string) => boolean {
  const bytes = readFileSync(file);
  const font = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const cmap = tableAt(font, 'cmap');
  const count = font.getUint16(cmap + 2);
  const subtables = Array.from({ length: count }, (_, at) => {
    return cmap + font.getUint32(cmap + 4 + at * 8 + 4);
  });
  const table = subtables.find((at) => font.getUint16(at) === SEGMENTS);
  if (table === undefined) throw new Error(`${file} has no table of the basic plane`);
  return (sign) => glyphOf(font, table, sign.codePointAt(0) ?? 0) !== 0;
}

function tableAt(font: DataView, wanted: string): number {
  for (let at = 12; at < 12 + 16 * font.getUint16(4); at += 16) {
    const tag = String.fromCharCode(...[0, 1, 2, 3].map((byte) => font.getUint8(at + byte)));
    if (tag === wanted) return font.getUint32(at + 8);
  }
  throw new Error(`there is no table ${wanted}`);
}

/** 0 is the shape for what is missing. */
function glyphOf(font: DataView, table: number, code: number): number {
  const length = font.getUint16(table + 6);
  const column = (number: number) => table + 14 + number * length + (number === 0 ? 0 : 2);
  for (let at = 0; at < length; at += 2) {
    if (font.getUint16(column(0) + at) < code) continue;
    const start = font.getUint16(column(1) + at);
    if (start > code) return 0;
    const rangeAt = column(3) + at;
    const range = font.getUint16(rangeAt);
    const delta = font.getUint16(column(2) + at);
    if (range === 0) return (code + delta) & 0xffff;
    const glyph = font.getUint16(rangeAt + range + (code - start) * 2);
    return glyph === 0 ? 0 : (glyph + delta) & 0xffff;
  }
  return 0;
}
