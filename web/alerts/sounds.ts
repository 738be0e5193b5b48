/**
 * The sounds of alerts, as data: made by the browser, none is a file. A running vacuum pump hums below
 * some 600 Hz and hisses above 4 kHz, and the ear is keenest from 1 to 4 kHz: they lie between 1 and 3 kHz,
 * last well over a second, and leave no longer gap than a fifth of one. By ear on a laptop; settings of ours.
 */

export const SOUND_NAMES = ['bell_buoy', 'call_pipe', 'rivet_hammer', 'two_terns'] as const;
export type SoundName = (typeof SOUND_NAMES)[number];

export interface Tone {
  readonly fromS: number;
  readonly lengthS: number;
  readonly startHz: number;
  /** Where it has slid to at its end. */
  readonly endHz: number;
  /** From 0 to 1; what sounds together adds up to 1 at most. */
  readonly loudness: number;
  readonly shape: 'sine' | 'triangle' | 'square' | 'sawtooth';
  /** Struck: loud at once, then dying away. Blown: as loud all along. */
  readonly manner: 'struck' | 'blown';
}

/** A bell's partials don't stand in whole ratios: hum and two upper ones. */
function bell(fromS: number): Tone[] {
  const partials = [
    [1080, 0.5],
    [1610, 0.3],
    [2690, 0.2],
  ] as const;
  return partials.map(([hertz, loudness]) => ({
    fromS,
    lengthS: 0.7,
    startHz: hertz,
    endHz: hertz,
    loudness,
    shape: 'triangle',
    manner: 'struck',
  }));
}

function blown(fromS: number, lengthS: number, startHz: number, endHz = startHz): Tone {
  return { fromS, lengthS, startHz, endHz, loudness: 1, shape: 'sawtooth', manner: 'blown' };
}

function knock(fromS: number): Tone {
  const [hertz, loudness] = [1350, 1];
  const common = {
    startHz: hertz,
    endHz: hertz,
    loudness,
    shape: 'square',
    manner: 'struck',
  } as const;
  return { fromS, lengthS: 0.11, ...common };
}

function cry(fromS: number): Tone {
  return { ...blown(fromS, 0.28, 2900, 1500), shape: 'square', loudness: 0.9 };
}

export const SOUNDS: Readonly<Record<SoundName, readonly Tone[]>> = {
  bell_buoy: [0, 0.7, 1.05, 1.75].flatMap(bell),
  call_pipe: [blown(0, 0.35, 1500), blown(0.35, 0.2, 1500, 2500), blown(0.55, 0.8, 2500)],
  rivet_hammer: [0, 0.14, 0.28, 0.42, 0.7, 0.84, 0.98, 1.12, 1.4, 1.54, 1.68].map(knock),
  two_terns: [0, 0.33, 0.66, 1.15, 1.48, 1.81].map(cry),
};

/** How long a sound lasts, s. */
export function lengthOf(sound: SoundName): number {
  return SOUNDS[sound].reduce((end, { fromS, lengthS }) => Math.max(end, fromS + lengthS), 0);
}
