/** The code of an address, read back by a decoder that shares nothing with its maker. */
import jsQR from 'jsqr';
import { describe, expect, test } from 'vitest';
import { codeOf } from '../../../web/second-screen/code-of.ts';
import { isThisMachine } from '../../../web/second-screen/is-this-machine.ts';

/** Camera pixels a module. */
const SCALE = 4;

function seenByCamera({ size, isDark }: ReturnType<typeof codeOf>, hidden = 0) {
  const width = size * SCALE;
  const pixels = new Uint8ClampedArray(width * width * 4).fill(255);
  for (let y = 0; y < width; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const [row, column] = [Math.floor(y / SCALE), Math.floor(x / SCALE)];
      // A thumb over the middle.
      const away = Math.max(Math.abs(row - size / 2), Math.abs(column - size / 2));
      const grey = away < hidden || isDark(row, column) ? 0 : 255;
      pixels.set([grey, grey, grey], (y * width + x) * 4);
    }
  }
  return jsQR(pixels, width, width)?.data;
}

describe('the code of an address', () => {
  test.each([
    'http://127.0.0.1:4180/',
    'http://192.0.2.17:4180/',
    'https://van.example/evacuations/north/#screen-2',
  ])('%s is read back', (address) => {
    expect(seenByCamera(codeOf(address))).toBe(address);
  });

  test('also with a thumb over part of it, and not with a hand', () => {
    const address = 'http://192.0.2.17:4180/';
    expect(seenByCamera(codeOf(address), 3)).toBe(address);
    expect(seenByCamera(codeOf(address), 12)).not.toBe(address);
  });
});

test.each([
  ['http://127.0.0.1:4180/', true],
  ['http://localhost:4180/', true],
  ['http://[::1]:4180/', true],
  ['http://192.0.2.17:4180/', false],
  ['https://van.example/', false],
])('%s leads to this machine: %s', (address, is) => {
  expect(isThisMachine(address)).toBe(is);
});
