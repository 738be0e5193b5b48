/** The colours and letters of the look in force, for the canvas, which knows no CSS variables. */

type Name = 'paper' | 'sheet' | 'ink' | 'faint' | 'rule' | 'water' | 'shoal' | 'buoy' | 'kelp';

export type Palette = Readonly<Record<Name, string>>;

export function readPalette(root: Element): Palette {
  const style = getComputedStyle(root);
  const read = (name: string) => style.getPropertyValue(`--${name}`).trim();
  return {
    paper: read('paper'),
    sheet: read('sheet'),
    ink: read('ink'),
    faint: read('faint'),
    rule: read('rule'),
    water: read('water'),
    shoal: read('shoal'),
    buoy: read('buoy'),
    kelp: read('kelp'),
  };
}

export function figureFont(px: number, weight: 500 | 600 = 500): string {
  return `${weight} ${px}px "Barlow Semi Condensed", sans-serif`;
}

export function remarkFont(px: number): string {
  return `italic 400 ${px}px "Source Serif 4", serif`;
}
