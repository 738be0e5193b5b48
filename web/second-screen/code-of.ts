/** An address as a QR code (ISO/IEC 18004), for a camera to read: pure. */
import qrcode from 'qrcode-generator';

/** Light around it, in modules: ISO/IEC 18004, quiet zone. */
const QUIET = 4;

export interface Code {
  /** Modules along an edge, the quiet zone counted. */
  readonly size: number;
  /** Where it is dark. */
  readonly isDark: (row: number, column: number) => boolean;
}

export function codeOf(address: string): Code {
  // As many modules as it takes; a quarter of them may be covered by a thumb or the sun.
  const code = qrcode(0, 'Q');
  code.addData(address);
  code.make();
  const count = code.getModuleCount();
  const isWithin = (at: number) => at >= QUIET && at < QUIET + count;
  return {
    size: count + 2 * QUIET,
    isDark: (row, column) =>
      isWithin(row) && isWithin(column) && code.isDark(row - QUIET, column - QUIET),
  };
}

/** Its dark modules as a path, one unit each. */
export function codePath({ size, isDark }: Code): string {
  const squares: string[] = [];
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; column += 1) {
      if (isDark(row, column)) squares.push(`M${column} ${row}h1v1h-1z`);
    }
  }
  return squares.join('');
}
