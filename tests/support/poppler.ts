/** What poppler's tools, which share nothing with the library that wrote it, find in a PDF. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface ExaminedPdf {
  /** What `pdfinfo` says, by its names. */
  readonly info: Readonly<Record<string, string>>;
  /** The text of each page in the order in which it is drawn; what stands across it has a line for each letter. */
  readonly pages: readonly string[];
  /** All of it without white space: a line may end anywhere. */
  readonly letters: string;
  readonly fonts: readonly {
    readonly name: string;
    readonly embedded: boolean;
    readonly subset: boolean;
  }[];
  readonly images: number;
  readonly attachments: ReadonlyMap<string, Buffer>;
}

export function examinePdf(bytes: Buffer): ExaminedPdf {
  const folder = mkdtempSync(join(tmpdir(), 'pdf-'));
  const file = join(folder, 'report.pdf');
  try {
    writeFileSync(file, bytes);
    const text = poppler('pdftotext', '-raw', file, '-');
    poppler('pdfdetach', '-saveall', '-o', folder, file);
    const names = readdirSync(folder).filter((name) => name !== 'report.pdf');
    return {
      info: Object.fromEntries(
        poppler('pdfinfo', '-isodates', file)
          .split('\n')
          .map((line) => [line.split(':')[0] ?? '', line.slice(line.indexOf(':') + 1).trim()]),
      ),
      pages: text.split('\f').slice(0, -1),
      letters: lettersOf(text),
      fonts: rowsOf(poppler('pdffonts', file)).map((row) => {
        const [, name = ''] = /^(\S+)/u.exec(row) ?? [];
        const [, embedded, subset] = / (yes|no) +(yes|no) +(?:yes|no) +\d+ +\d+$/u.exec(row) ?? [];
        return { name, embedded: embedded === 'yes', subset: subset === 'yes' };
      }),
      images: rowsOf(poppler('pdfimages', '-list', file)).length,
      attachments: new Map(names.map((name) => [name, readFileSync(join(folder, name))])),
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function poppler(tool: string, ...args: readonly string[]): string {
  const { error, status, stdout, stderr } = spawnSync(tool, args, { encoding: 'utf8' });
  if (error !== undefined) {
    throw new Error(
      `These tests need ${tool}. On Debian: sudo apt-get install poppler-utils. Elsewhere: install poppler.`,
      { cause: error },
    );
  }
  // What a reader would have to mend is a fault, even where it is mended.
  if (status !== 0 || stderr !== '') throw new Error(`${tool}: ${stderr}`);
  return stdout;
}

export function lettersOf(text: string): string {
  return text.replaceAll(/\s/gu, '');
}

/** Below the two lines of a heading. */
function rowsOf(table: string): string[] {
  return table.trimEnd().split('\n').slice(2);
}
