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
  return words.listed.tube({
    role: words.roles[role],
    size: `${mm(outerDiameterM)} × ${mm(wallM)} mm`,
    length: sayNumber(lengthM, speech),
    section,
  });
}

export function sayVessel({ kind, size, section }: Vessel, speech: Speech): string {
  const words = speech.wording.planning.volume;
  return words.listed.vessel({ kind: words.kinds[kind], amount: saySize(size, speech), section });
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
  const words = speech.wording.planning.volume.listed;
  const litres = volumeM3 === null ? '' : sayLitres(volumeM3, speech);
  const section = words.section({ name, litres });
  return hoseHere ? words.sectionWithHose({ section }) : section;
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
