/** Lines and valves as they are typed, and the presets. */
import { describe, expect, test } from 'vitest';
import { MICRON } from '../../support/english-speech.ts';
import { connectedVolume } from '../../../web/plan/connected-volume.ts';
import { draftOf, OWN_SIZE, readDraft, type VolumeDraft } from '../../../web/plan/volume-draft.ts';
import { PRESETS, presetDraft } from '../../../web/plan/volume-presets.ts';

const names = MICRON.wording.planning.volume.sectionNames;

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
  const tube = {
    role: 'gas',
    size: OWN_SIZE,
    outerMm: '12',
    wallMm: '1',
    lengthM: '3',
    section: '',
  } as const;
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
        sections: [...good.sections.slice(0, 1), { name: ' ', litres: '', hoseHere: false }],
      },
    ],
    ['joins', 0, 'ends', { ...good, sections: [] }],
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
