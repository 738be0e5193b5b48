/** A figure's SVG as the PDF library can draw it. */

/** Letters that lie on lines have paper around them, painted first; the library would paint it over them. */
const HALOED =
  /<text paint-order="stroke" (stroke="[^"]*" stroke-width="[^"]*" stroke-linejoin="[^"]*") ([^>]*)>([^<]*)<\/text>/gu;

/** Each of those is drawn twice: the paper around it, then the letters. */
export function printableSvg(svg: string): string {
  return svg.replaceAll(HALOED, (_, halo: string, place: string, label: string) => {
    return `<text ${halo} ${place.replace(/fill="[^"]*"/u, 'fill="none"')}>${label}</text><text ${place}>${label}</text>`;
  });
}
