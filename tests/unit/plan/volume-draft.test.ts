/** Lines and valves as they are typed, and the presets. */
import { describe, expect, test } from 'vitest';
import { MICRON } from '../../support/english-speech.ts';
import { connectedVolume } from '../../../web/plan/connected-volume.ts';
import {
  draftOf,
  freshSection,
  OWN_SIZE,
  type VolumeDraft,
} from '../../../web/plan/volume-draft.ts';
import { enteredMap, rekeyed } from '../../../web/plan/renamed-sections.ts';
import { readDraft } from '../../../web/plan/read-draft.ts';
import { unusualRow } from '../../../web/plan/unusual-row.ts';
import { PRESETS, presetDraft } from '../../../web/plan/volume-presets.ts';

const names = MICRON.wording.planning.volume.sectionNames;

const TUBE = {
  role: 'gas',
  size: OWN_SIZE,
  outerMm: '12',
  wallMm: '1',
  lengthM: '3',
  section: '',
} as const;

function factsOf(draft: VolumeDraft) {
  const read = readDraft(draft);
  if (!read.ok) throw new Error(`${read.list} ${read.row}: ${read.reason}`);
  return read.facts;
}

describe.each(PRESETS)('preset %s', (preset) => {
  const facts = factsOf(presetDraft(preset, names));

  test('can be entered, and comes back as it was entered', () => {
    expect(factsOf(draftOf(facts, MICRON))).toEqual(facts);
  });

  test('has a connected volume of some litres', () => {
    const litres = (connectedVolume(facts).sure.volume?.estimateM3 ?? 0) * 1e3;
    expect(litres).toBeGreaterThan(0.8);
    expect(litres).toBeLessThan(10);
  });
});

test('only of the whole split is it not known what is connected', () => {
  const answers = PRESETS.map(
    (preset) => connectedVolume(factsOf(presetDraft(preset, names))).ifOpen !== null,
  );
  expect(answers).toEqual([false, true, false]);
});

describe('refused, by list, row and reason', () => {
  const good = presetDraft('line_set', names);
  const tube = TUBE;
  test.each([
    ['tubes', 0, 'number', { ...good, tubes: [{ ...tube, lengthM: 'long' }] }],
    ['tubes', 1, 'wall', { ...good, tubes: [tube, { ...tube, wallMm: '7' }] }],
    ['sections', 0, 'name', { ...good, sections: [...good.sections, ...good.sections] }],
    [
      'sections',
      1,
      'name',
      {
        ...good,
        joins: [],
        sections: [
          ...good.sections.slice(0, 1),
          { key: 'b', name: ' ', litres: '', hoseHere: false },
        ],
      },
    ],
    [
      'joins',
      0,
      'ends',
      { ...good, joins: good.joins.map((join) => ({ ...join, other: join.one })) },
    ],
    ['joins', 0, 'unknown', { ...good, sections: good.sections.slice(0, 1), vessels: [] }],
    ['tubes', 0, 'unknown', { ...good, sections: good.sections.slice(1) }],
    ['vessels', 1, 'unknown', { ...good, sections: good.sections.slice(0, 1), joins: [] }],
    [
      'vessels',
      0,
      'number',
      {
        ...good,
        vessels: [{ kind: 'other', by: 'volume', amount: '', refrigerant: '', section: '' }],
      },
    ],
  ] as const)('%s %d: %s', (list, row, reason, draft) => {
    expect(readDraft(draft)).toEqual({ ok: false, list, row, reason });
  });
});

test('a size of one’s own is taken as it is typed, with a comma or a point', () => {
  const typed = {
    role: 'gas',
    size: OWN_SIZE,
    outerMm: '12,7',
    wallMm: '0.8',
    lengthM: '3',
    section: '',
  } as const;
  const [tube] = factsOf({ sections: [], vessels: [], joins: [], tubes: [typed] }).tubes;
  expect(tube?.outerDiameterM).toBeCloseTo(0.0127, 9);
  expect(tube?.wallM).toBeCloseTo(0.0008, 9);
});

describe('a section that is called something else', () => {
  const preset = presetDraft('several_units', names);
  const before = factsOf(preset);
  const calledIn = (draft: VolumeDraft, place: number, name: string): VolumeDraft => ({
    ...draft,
    sections: draft.sections.map((row, at) => (at === place ? { ...row, name } : row)),
  });

  test('keeps its lines, coils and valves', () => {
    const old = before.sections[1]?.name ?? '';
    // As it is typed: through nothing, and through the name of another one.
    const typed = ['', before.sections[2]?.name ?? '', ' Attic '].reduce(
      (draft, name) => calledIn(draft, 1, name),
      preset,
    );
    const facts = factsOf(typed);
    expect(JSON.parse(JSON.stringify(before).replaceAll(old, 'Attic'))).toEqual(facts);
    expect(facts.tubes.filter(({ section }) => section === 'Attic')).toHaveLength(2);
    expect(facts.vessels.filter(({ section }) => section === 'Attic')).toHaveLength(1);
    expect(facts.joins.filter(({ between }) => between.includes('Attic'))).toHaveLength(1);
  });

  test('says what it was called, and what the sensor sees is called so as well', () => {
    const [first, second] = before.sections.map(({ name }) => name);
    const entered = (draft: VolumeDraft, sections = before.sections) =>
      enteredMap(draft, factsOf(draft), { sections, seenSection: second ?? '' });
    const attic = calledIn(preset, 1, 'Attic');
    expect(entered(attic).sections[1]).toMatchObject({ name: 'Attic', was: second });
    expect(entered(attic).seenSection).toBe('Attic');
    // Of the others nothing is new, and what was not on the map has had no name.
    expect(entered(attic).sections[0]).not.toHaveProperty('was');
    expect(entered(attic, []).sections[1]).not.toHaveProperty('was');
    expect(entered(calledIn(preset, 0, 'Riser')).sections[0]).toMatchObject({ was: first });
    expect(entered(calledIn(preset, 0, 'Riser'))).not.toHaveProperty('seenSection');
    // Entered, and called something else again.
    const loft = rekeyed(calledIn(attic, 1, 'Loft'), attic);
    expect(entered(loft, factsOf(attic).sections).sections[1]).toMatchObject({ was: 'Attic' });
    expect(factsOf(rekeyed(attic, attic))).toEqual(factsOf(attic));
  });

  test('has the same volume connected', () => {
    const facts = factsOf(calledIn(preset, 0, 'Riser'));
    const volumeOf = (one: typeof facts) => connectedVolume(one).sure.volume;
    expect(volumeOf(before)).not.toBeNull();
    expect(volumeOf(facts)).toEqual(volumeOf(before));
  });
});

test('a new section takes no rows of one that was taken out', () => {
  const good = presetDraft('line_set', names);
  const added = { ...freshSection({ ...good, sections: [] }), name: 'Coil' };
  const inIt = { ...good, joins: [], vessels: [], sections: [added] };
  const tubes = good.tubes.map((tube) => ({ ...tube, section: added.key }));
  expect(factsOf({ ...inIt, tubes }).tubes[0]?.section).toBe('Coil');
  const again = { ...freshSection({ ...inIt, tubes, sections: [] }), name: 'Other coil' };
  const read = readDraft({ ...inIt, tubes, sections: [again] });
  expect(read).toEqual({ ok: false, list: 'tubes', row: 0, reason: 'unknown' });
});

test('a unit may stand beside the figure', () => {
  const tubes = [{ ...TUBE, lengthM: '25 ft', outerMm: '3/8 in', wallMm: '0.8' }];
  const vessel = { kind: 'receiver', by: 'charge', refrigerant: 'R-410A', section: '' } as const;
  const draft = { sections: [], joins: [], tubes, vessels: [{ ...vessel, amount: '3 lb' }] };
  const facts = factsOf(draft);
  // NIST SP 811, App. B.8: foot, inch and pound are exact.
  expect(facts.tubes[0]).toMatchObject({ lengthM: 25 * 0.3048, outerDiameterM: 0.0254 * 0.375 });
  expect(facts.vessels[0]?.size).toMatchObject({ chargeKg: 3 * 0.45359237 });
});

test.each([
  ['sections', { sections: [{ key: 'a', name: 'Coil', litres: '4200', hoseHere: true }] }],
  ['tubes', { tubes: [{ ...TUBE, lengthM: '900' }] }],
  [
    'vessels',
    {
      vessels: [
        { kind: 'receiver', by: 'charge', amount: '1500', refrigerant: 'R-410A', section: '' },
      ],
    },
  ],
] as const)('of %s the row that is far from usual is found', (list, rows) => {
  const usual = { sections: [], tubes: [TUBE], vessels: [], joins: [] };
  expect(unusualRow(factsOf(usual), MICRON)).toBeNull();
  expect(unusualRow(factsOf({ ...usual, ...rows }), MICRON)).toMatchObject({ list, row: 0 });
});
