/** What lines and vessels hold, and how much of it is connected. */
import { describe, expect, test } from 'vitest';
import type { Join, RigSection, Tube, Vessel } from '../../../protocol/rig-facts.ts';
import { sectionsSchema, tubesSchema } from '../../../protocol/rig-facts.ts';
import { connectedVolume } from '../../../web/plan/connected-volume.ts';
import { farEndOf } from '../../../web/plan/far-end.ts';
import { farParts } from '../../../web/plan/far-parts.ts';
import { summed, tubeVolume, vesselVolume } from '../../../web/plan/internal-volume.ts';
import { tubeOf } from '../../support/invented-systems.ts';

const tube = (size: string, lengthM: number, section = '', role: Tube['role'] = 'gas'): Tube => ({
  role,
  ...tubeOf(size),
  lengthM,
  section,
});
const coil = (litres: number, section = ''): Vessel => ({
  kind: 'indoor_coil',
  size: { by: 'volume', volumeM3: litres / 1000 },
  section,
});
const section = (name: string, litres: number | null = null, hoseHere = false): RigSection => ({
  name,
  volumeM3: litres === null ? null : litres / 1000,
  hoseHere,
});
const join = (
  one: string,
  other: string,
  state: Join['state'],
  kind: Join['kind'] = 'branch_valve',
): Join => ({
  kind,
  between: [one, other],
  state,
});
const NOTHING = { tubes: [], vessels: [], sections: [], joins: [] };

describe('a part’s volume', () => {
  test('ten metres of 3/8 inch hold half a litre, within an eighth', () => {
    // The published area of 0.076 square inches.
    const { lowM3, estimateM3, highM3 } = tubeVolume(tube('3/8', 10));
    expect(estimateM3 * 1e3).toBeCloseTo(0.076 * 0.64516 * 10, 2);
    expect(lowM3 / estimateM3).toBeGreaterThan(0.85);
    expect(highM3 / estimateM3).toBeLessThan(1.15);
    expect(lowM3).toBeLessThan(0.95 * estimateM3);
  });

  test('by charge: 1 kg of R-410A is 0.92 L of liquid, in a room some three times as large', () => {
    const vessel: Vessel = {
      kind: 'outdoor_coil',
      size: { by: 'charge', chargeKg: 1, refrigerant: 'R-410A' },
      section: '',
    };
    const volume = vesselVolume(vessel);
    expect((volume?.estimateM3 ?? 0) * 1e3).toBeCloseTo(0.923 / 0.32, 2);
    expect((volume?.lowM3 ?? 0) * 1e3).toBeCloseTo(0.923 / 0.5, 2);
    expect((volume?.highM3 ?? 0) * 1e3).toBeCloseTo(0.923 / 0.2, 2);
    const receiver = vesselVolume({ ...vessel, kind: 'receiver' });
    expect(receiver?.estimateM3).toBeLessThan(0.5 * (volume?.estimateM3 ?? 0));
  });

  test('a refrigerant that is not in the list gives none', () => {
    const size = { by: 'charge', chargeKg: 1, refrigerant: 'R-0' } as const;
    expect(vesselVolume({ kind: 'other', size, section: '' })).toBeNull();
  });

  test('deviations add up as squares, and what is unknown is left out', () => {
    const part = { lowM3: 0.9, estimateM3: 1, highM3: 1.2 };
    expect(summed([part, part, null])).toEqual({
      lowM3: 2 - Math.hypot(0.1, 0.1),
      estimateM3: 2,
      highM3: 2 + Math.hypot(1.2 - 1, 1.2 - 1),
    });
    expect(summed([null])).toBeNull();
  });
});

describe('connected', () => {
  const SECTIONS = [section('lines', 1, true), section('outdoor', 4), section('second coil', 2)];

  test('without sections it is all there is', () => {
    const { sure, ifOpen } = connectedVolume({
      ...NOTHING,
      tubes: [tube('3/8', 10)],
      vessels: [coil(1)],
    });
    expect((sure.volume?.estimateM3 ?? 0) * 1e3).toBeCloseTo(1.49, 2);
    expect(ifOpen).toBeNull();
    expect(connectedVolume(NOTHING).sure.volume).toBeNull();
  });

  test('a closed valve leaves out what is behind it', () => {
    const joins = [join('lines', 'outdoor', 'closed'), join('second coil', 'lines', 'open')];
    const { sure, ifOpen } = connectedVolume({ ...NOTHING, sections: SECTIONS, joins });
    expect(sure.names).toEqual(['lines', 'second coil']);
    expect((sure.volume?.estimateM3 ?? 0) * 1e3).toBeCloseTo(3, 9);
    expect(ifOpen).toBeNull();
  });

  test('where it is not known, both answers', () => {
    const joins = [join('lines', 'outdoor', 'unknown'), join('outdoor', 'second coil', 'open')];
    const { sure, ifOpen, unknownJoins } = connectedVolume({
      ...NOTHING,
      sections: SECTIONS,
      joins,
    });
    expect((sure.volume?.estimateM3 ?? 0) * 1e3).toBeCloseTo(1, 9);
    expect((ifOpen?.volume?.estimateM3 ?? 0) * 1e3).toBeCloseTo(7, 9);
    expect(unknownJoins).toEqual([joins[0]]);
  });

  test('an unknown valve beside an open way makes no difference', () => {
    const joins = [
      join('lines', 'outdoor', 'unknown', 'expansion_valve'),
      join('lines', 'outdoor', 'open'),
    ];
    const { sure, ifOpen } = connectedVolume({ ...NOTHING, sections: SECTIONS, joins });
    expect(sure.names).toEqual(['lines', 'outdoor']);
    expect(ifOpen).toBeNull();
  });

  test('a section of which nothing is known is named', () => {
    const sections = [section('lines', 1, true), section('outdoor')];
    const joins = [join('lines', 'outdoor', 'open')];
    expect(connectedVolume({ ...NOTHING, sections, joins }).sure.uncounted).toEqual(['outdoor']);
  });

  test('what names no section lies in that of the hose', () => {
    const sections = [section('outdoor', 4), section('lines', null, true)];
    const { sure } = connectedVolume({ ...NOTHING, sections, vessels: [coil(1)] });
    expect((sure.volume?.estimateM3 ?? 0) * 1e3).toBeCloseTo(1, 9);
  });
});

describe('behind long lines', () => {
  test('the coil at the end, with half of the line’s own volume', () => {
    const [part, ...rest] = farParts({ ...NOTHING, tubes: [tube('3/8', 10)], vessels: [coil(1)] });
    expect(rest).toEqual([]);
    expect(part?.share).toBeCloseTo((1 + 0.49 / 2) / 1.49, 2);
    expect(part?.lengthM).toBe(10);
  });

  test('of gas and liquid line side by side the wider one is the way', () => {
    const tubes = [tube('1/4', 10, '', 'liquid'), tube('5/8', 12)];
    expect(farParts({ ...NOTHING, tubes, vessels: [coil(1)] })[0]?.lengthM).toBe(12);
  });

  test('tubes of one role are put into one, which resists as both', () => {
    const tubes = [tube('1/2', 10), tube('3/8', 2)];
    const [part] = farParts({ ...NOTHING, tubes, vessels: [coil(1)] });
    const each = tubes.map(
      ({ outerDiameterM, wallM, lengthM }) => lengthM / (outerDiameterM - 2 * wallM) ** 4,
    );
    const one = (part?.lengthM ?? 0) / (part?.boreM ?? 1) ** 4;
    expect(one / each.reduce((sum, value) => sum + value, 0)).toBeCloseTo(1, 9);
  });

  test('a service valve stands at the hose, a branch at the lines’ far end, and what is shut off counts for nothing', () => {
    const sections = [
      section('main', null, true),
      section('outdoor', 4),
      section('branch'),
      section('shut', 9),
    ];
    const joins = [
      join('main', 'outdoor', 'open', 'service_valve'),
      join('main', 'branch', 'open'),
      join('main', 'shut', 'closed'),
    ];
    const tubes = [tube('5/8', 10, 'main'), tube('3/8', 5, 'branch')];
    const parts = farParts({ sections, joins, tubes, vessels: [coil(1, 'branch')] });
    expect(parts.map(({ after }) => after)).toEqual([null, 0]);
    const near = 1 - parts.reduce((sum, { share }) => sum + share, 0);
    const wholeL = 4 + 1 + 1.56 + 0.245;
    expect(near).toBeCloseTo((4 + 0.78) / wholeL, 2);
  });
});

test('through a line comes the gas of all that hangs on it', () => {
  const line = { boreM: 0.01, lengthM: 10 };
  const end = farEndOf([
    { ...line, share: 0.2, after: null },
    { ...line, share: 0.3, after: 0 },
    { ...line, share: 0.1, lengthM: 40, after: 0 },
  ]);
  expect(end?.index).toBe(2);
  expect(end?.lines.map(({ gasShare }) => gasShare)).toEqual([0.1, expect.closeTo(0.6, 9)]);
  expect(farEndOf([])).toBeNull();
});

test('what can’t be is refused with what to do about it', () => {
  const thick = { ...tube('3/8', 1), wallM: 0.006 };
  expect(tubesSchema.safeParse([thick]).error?.issues[0]?.message).toMatch(/outer diameter/u);
  const twice = sectionsSchema.safeParse([section('a'), section('a')]);
  expect(twice.error?.issues[0]?.message).toMatch(/its own/u);
  const both = sectionsSchema.safeParse([section('a', 1, true), section('b', 1, true)]);
  expect(both.error?.issues[0]?.message).toMatch(/one section only/u);
});
