/** Letters of the PDF: a typeface that has every sign which a report prints, whatever the language. */
import { fileURLToPath } from 'node:url';

const at = (file: string): string =>
  fileURLToPath(import.meta.resolve(`dejavu-fonts-ttf/ttf/${file}.ttf`));

const sans = {
  normal: at('DejaVuSansCondensed'),
  bold: at('DejaVuSansCondensed-Bold'),
  italics: at('DejaVuSansCondensed-Oblique'),
};

/** Under the names that the figures ask for. */
export const PDF_FONTS = {
  'sans-serif': sans,
  serif: { normal: at('DejaVuSerifCondensed'), bold: at('DejaVuSerifCondensed-Bold') },
  monospace: { normal: at('DejaVuSansMono') },
};

/** All files that a PDF may be made of. */
export const FONT_FILES: ReadonlySet<string> = new Set(
  Object.values(PDF_FONTS).flatMap((family) => Object.values(family)),
);
