/** What was entered of lines, vessels, sections and valves, as a report lists it. */
import type { Join, RigSection, Tube, Vessel } from '../../protocol/rig-facts.ts';
import { sayNumber } from './say-number.ts';
import type { Speech } from './speech.ts';

const LITRES_PER_M3 = 1000;
const MM_PER_M = 1000;

export function sayTube(
  { role, outerDiameterM, wallM, lengthM, section }: Tube,
  speech: Speech,
): string {
  const words = speech.wording.planning.volume;
  const mm = (metres: number) => sayNumber(metres * MM_PER_M, speech);
  const size = `${mm(outerDiameterM)} × ${mm(wallM)} mm`;
  return `${words.roles[role]} ${size}, ${sayNumber(lengthM, speech)} m${inSection(section)}`;
}

export function sayVessel({ kind, size, section }: Vessel, speech: Speech): string {
  const words = speech.wording.planning.volume;
  return `${words.kinds[kind]}, ${saySize(size, speech)}${inSection(section)}`;
}

function saySize(size: Vessel['size'], speech: Speech): string {
  const words = speech.wording.planning.volume;
  switch (size.by) {
    case 'volume':
      return `${sayLitres(size.volumeM3, speech)} L`;
    case 'charge':
      return words.listed.charged({
        charge: sayNumber(size.chargeKg, speech),
        refrigerant: size.refrigerant,
      });
    case 'usual':
      return words.bys.usual;
  }
}

export function saySection({ name, volumeM3, hoseHere }: RigSection, speech: Speech): string {
  const section = volumeM3 === null ? name : `${name} ${sayLitres(volumeM3, speech)} L`;
  return hoseHere ? speech.wording.planning.volume.listed.sectionWithHose({ section }) : section;
}

function inSection(section: string): string {
  return section === '' ? '' : ` (${section})`;
}

export function sayJoin({ kind, between: [one, other], state }: Join, speech: Speech): string {
  const words = speech.wording.planning.volume;
  return words.listed.join({
    kind: words.joinKinds[kind],
    one,
    other,
    state: words.states[state],
  });
}

export function sayLitres(volumeM3: number, speech: Speech): string {
  return sayNumber(volumeM3 * LITRES_PER_M3, speech);
}

/** One after the other, or that there is none. */
export function sayRows<T>(
  rows: readonly T[],
  say: (row: T, speech: Speech) => string,
  speech: Speech,
): string {
  const none = speech.wording.sheet.notEntered;
  return rows.length === 0 ? none : rows.map((row) => say(row, speech)).join('; ');
}
