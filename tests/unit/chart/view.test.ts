/** What a person chose to see, and what becomes of it as time goes on. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chartKey } from '../../../web/chart/chart-keys.ts';
import { pinched } from '../../../web/chart/pinched.ts';
import { type DrawnBox, placeLabels } from '../../../web/figure/place-labels.ts';
import { placeBox } from '../../../web/chart/place-box.ts';
import {
  atBeginning,
  atPresent,
  axesFor,
  boundsOf,
  moved,
  rangeOf,
  viewOf,
  zoomed,
} from '../../../web/chart/view.ts';

const usual = { fromS: 0, toS: 2000 };
const bounds = boundsOf(usual, 0, 1000);

describe('zoom', () => {
  test('keeps the place under the pointer, and moving keeps the width', () => {
    const near = zoomed({ fromS: 0, toS: 100 }, 0.5, 0.25, bounds);
    expect(rangeOf(near, usual, bounds)).toEqual({ fromS: 12.5, toS: 62.5 });
    const on = moved({ fromS: 100, toS: 200 }, 0.2, bounds);
    expect(rangeOf(on, usual, bounds)).toEqual({ fromS: 120, toS: 220 });
  });

  test('out beyond everything is everything, and goes on growing', () => {
    const view = zoomed({ fromS: 500, toS: 1500 }, 4, 0.5, bounds);
    expect(view).toEqual({ kind: 'all' });
    const later = boundsOf({ fromS: 0, toS: 2600 }, 0, 1600);
    expect(rangeOf(view, usual, later)).toEqual({ fromS: 0, toS: 2600 });
  });

  test('nothing chosen is the usual stretch', () => {
    expect(rangeOf(null, usual, bounds)).toEqual(usual);
  });
});

describe('as time goes on', () => {
  const later = boundsOf(usual, 0, 1300);

  test('what has the present in it follows with the same width', () => {
    const view = viewOf({ fromS: 850, toS: 1050 }, bounds);
    expect(rangeOf(view, usual, later)).toEqual({ fromS: 1150, toS: 1350 });
  });

  test('what has not stays where it is', () => {
    const view = viewOf({ fromS: 200, toS: 500 }, bounds);
    expect(view.kind).toBe('stay');
    expect(rangeOf(view, usual, later)).toEqual({ fromS: 200, toS: 500 });
  });

  test('beginning and present are as wide as what was shown', () => {
    const shown = { fromS: 400, toS: 500 };
    expect(rangeOf(atBeginning(shown, bounds), usual, bounds)).toEqual({ fromS: 0, toS: 100 });
    const present = atPresent(shown, bounds);
    expect(present.kind).toBe('follow');
    expect(rangeOf(present, usual, bounds)).toEqual({ fromS: 910, toS: 1010 });
  });
});

test('nothing leads out of what there is, or below ten seconds', () => {
  const time = fc.double({ min: -1e5, max: 1e5, noNaN: true });
  fc.assert(
    fc.property(time, time, fc.double({ min: 0.01, max: 100, noNaN: true }), (a, b, factor) => {
      const shown = rangeOf(viewOf({ fromS: a, toS: b }, bounds), usual, bounds);
      for (const view of [zoomed(shown, factor, 0.3, bounds), moved(shown, factor - 5, bounds)]) {
        const { fromS, toS } = rangeOf(view, usual, bounds);
        expect(fromS).toBeGreaterThanOrEqual(0);
        expect(toS).toBeLessThanOrEqual(2000 + 1e-6);
        expect(toS - fromS).toBeGreaterThanOrEqual(10 - 1e-6);
      }
    }),
  );
});

test('in a rise, what came before it is looked at on the log axis, from pump on', () => {
  const rise = { axis: 'linear', originS: 1000, fromS: 980, toS: 1900 } as const;
  expect(axesFor(rise, rise, 60)).toEqual(rise);
  expect(axesFor({ fromS: 0, toS: 1900 }, rise, 60)).toMatchObject({ axis: 'log', originS: 60 });
  expect(axesFor({ fromS: 1100, toS: 1200 }, rise, 60).axis).toBe('linear');
});

describe('two fingers', () => {
  test('keep the moments that are under them', () => {
    const range = pinched({ fromS: 0, toS: 100 }, [0.2, 0.6], [0.1, 0.9]);
    const at = (share: number) => range.fromS + (range.toS - range.fromS) * share;
    expect(at(0.1)).toBeCloseTo(20);
    expect(at(0.9)).toBeCloseTo(60);
  });

  test('on one another do no harm', () => {
    const { fromS, toS } = pinched({ fromS: 0, toS: 100 }, [0.5, 0.5], [0.5, 0.5]);
    expect([fromS, toS]).toEqual([0, 100]);
  });
});

describe('the cursor’s box', () => {
  const size = fc.record({ width: fc.nat(400), height: fc.nat(250) });

  test('never covers its point', () => {
    const room = fc.record({
      width: fc.integer({ min: 200, max: 1200 }),
      height: fc.integer({ min: 200, max: 900 }),
    });
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(room, size, share, share, (space, box, across, down) => {
        const point = { left: space.width * across, top: space.height * down };
        const { left, top } = placeBox(point, box, space);
        const isBeside = point.left < left || point.left > left + box.width;
        const isAboveOrBelow = point.top < top || point.top > top + box.height;
        expect(isBeside || isAboveOrBelow).toBe(true);
      }),
    );
  });

  test('stays within the room where there is one', () => {
    expect(
      placeBox({ left: 500, top: 5 }, { width: 200, height: 100 }, { width: 600, height: 300 }),
    ).toEqual({ left: 282, top: 0 });
    // Too wide for either side: in the larger half.
    expect(
      placeBox({ left: 130, top: 40 }, { width: 220, height: 100 }, { width: 270, height: 300 }),
    ).toEqual({ left: 20, top: 200 });
    // And too tall for both halves: out of the room rather than over the point.
    const tall = placeBox(
      { left: 130, top: 160 },
      { width: 260, height: 200 },
      { width: 270, height: 300 },
    );
    expect(tall.top + 200).toBeLessThan(160);
  });
});

test('keys that mean nothing to the chart stay with the page', () => {
  expect(chartKey('Tab', false)).toBeNull();
  expect(chartKey('ArrowUp', false)).toBeNull();
  expect(chartKey('ArrowLeft', true)).toEqual({ kind: 'move', by: -0.2 });
});

describe('names of lines', () => {
  const line = (y: number, width = 100) => ({ y, width });
  const room = { width: 600, bottom: 400 };
  const curve = (box: DrawnBox) => ({ boxes: [box], badness: 2 });

  test('stand above their lines, the lower of two close ones below it', () => {
    expect(placeLabels([line(100), line(200)], 20, room)).toEqual([
      { inset: 0, middle: 88 },
      { inset: 0, middle: 188 },
    ]);
    expect(placeLabels([line(100), line(105)], 20, room)[1]).toEqual({ inset: 0, middle: 117 });
  });

  test('keep clear of the curve: below the line, else further from the edge, where both are crossed', () => {
    const falls = { inset: 40, width: 10, top: 60, bottom: 96 };
    const off = (box: typeof falls) => placeLabels([line(100)], 20, room, [curve(box)]);
    expect(off(falls)).toEqual([{ inset: 0, middle: 112 }]);
    const [place] = off({ ...falls, bottom: 140 });
    expect(place?.middle).toBe(88);
    expect(place?.inset).toBeGreaterThanOrEqual(50);
    expect(place?.inset).toBeLessThan(70);
  });

  test('where the curve is everywhere, keep clear of the present reading at least', () => {
    const present = { boxes: [{ inset: 90, width: 20, top: 85, bottom: 105 }], badness: 8 };
    const all = curve({ inset: 0, width: 600, top: 0, bottom: 400 });
    const [place] = placeLabels([line(100)], 20, room, [present, all]);
    expect(place).toEqual({ inset: 0, middle: 112 });
    expect(placeLabels([line(100)], 20, room, [all])).toEqual([{ inset: 0, middle: 88 }]);
  });

  test('are not put on another line of their kind for the sake of a curve', () => {
    // 16 px apart: below the one a name would be read as the other's.
    const over = curve({ inset: 0, width: 600, top: 70, bottom: 96 });
    const [upper, lower] = placeLabels([line(100), line(116)], 20, room, [over]);
    expect(upper?.middle).toBe(88);
    expect(lower?.middle).toBe(128);
  });

  test('never lie on one another, and never out of the drawing', () => {
    const wish = fc.record({
      y: fc.integer({ min: 30, max: 300 }),
      width: fc.integer({ min: 20, max: 200 }),
    });
    fc.assert(
      fc.property(fc.array(wish, { maxLength: 3 }), (wishes) => {
        const places = placeLabels(wishes, 20, { width: 220, bottom: 300 });
        for (const [at, a] of places.entries()) {
          expect(a.middle).toBeLessThanOrEqual(300);
          expect(a.inset + (wishes[at]?.width ?? 0)).toBeLessThanOrEqual(220);
          for (const [other, b] of places.entries()) {
            if (other <= at) continue;
            const isApart =
              Math.abs(a.middle - b.middle) >= 20 ||
              a.inset >= b.inset + (wishes[other]?.width ?? 0) ||
              b.inset >= a.inset + (wishes[at]?.width ?? 0);
            expect(isApart).toBe(true);
          }
        }
      }),
    );
  });
});
