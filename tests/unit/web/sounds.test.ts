/** The sounds carry over a pump: where they lie, how long they last, and that none falls silent. */
import { describe, expect, test } from 'vitest';
import { lengthOf, SOUND_NAMES, SOUNDS } from '../../../web/alerts/sounds.ts';
import { english } from '../../../web/words/english.ts';

/** Looked at every hundredth of a second. */
const STEP_S = 0.01;
const LONGEST_SILENCE_S = 0.25;

describe.each(SOUND_NAMES)('the sound "%s"', (name) => {
  const tones = SOUNDS[name];

  test('lies between 1 and 3 kHz, all of it', () => {
    for (const { startHz, endHz } of tones) {
      expect(Math.min(startHz, endHz)).toBeGreaterThanOrEqual(1000);
      expect(Math.max(startHz, endHz)).toBeLessThanOrEqual(3000);
    }
  });

  test('lasts well over a second, and not so long that it is switched off', () => {
    expect(lengthOf(name)).toBeGreaterThan(1.2);
    expect(lengthOf(name)).toBeLessThan(3);
  });

  test('has no long silence in it, and is never louder than can be played', () => {
    let silentS = 0;
    for (let atS = 0; atS < lengthOf(name); atS += STEP_S) {
      const sounding = tones.filter(({ fromS, lengthS }) => fromS <= atS && atS < fromS + lengthS);
      silentS = sounding.length === 0 ? silentS + STEP_S : 0;
      expect(silentS, `at ${atS} s`).toBeLessThan(LONGEST_SILENCE_S);
      // Struck tones that follow one another overlap where the first has died away.
      const loud = sounding.filter(
        (tone) => tone.manner === 'blown' || atS - tone.fromS < tone.lengthS / 2,
      );
      expect(loud.reduce((sum, { loudness }) => sum + loudness, 0)).toBeLessThanOrEqual(1 + 1e-9);
    }
  });

  test('has a name of its own', () => {
    const names = SOUND_NAMES.map((sound) => english.reach.sounds[sound]);
    expect(names.filter((label) => label === english.reach.sounds[name])).toHaveLength(1);
  });
});
