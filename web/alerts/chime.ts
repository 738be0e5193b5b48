/** Plays the sounds of alerts, and knows whether the browser lets them be heard. */
import { signal } from '@preact/signals';
import { SOUNDS, type SoundName, type Tone } from './sounds.ts';

/**
 * `blocked` until somebody has touched the page: browsers play nothing before that. `none` where
 * there is no sound at all. `unknown` before it was looked.
 */
export const soundState = signal<'unknown' | 'blocked' | 'ready' | 'none'>('unknown');

/** A hard start or end would click, s. */
const EDGE_S = 0.015;
/** What a struck tone has died away to at its end. */
const FAINT = 0.02;

let context: AudioContext | null = null;

/**
 * From the first gesture on, sound is allowed: the context must be made or woken inside of one. Whether it
 * is allowed already is looked at once, so that a blocked one is known before an alert is missed.
 */
export function allowSoundOnGesture(): void {
  const allow = () => void wake();
  // With the click and not before it: what goes then must not move away what is being pressed.
  window.addEventListener('click', allow);
  window.addEventListener('keydown', allow);
  allow();
}

/**
 * @param volume from 0 to 1, as on a slider: the ear hears steps of a square alike
 * @returns whether it could be heard
 */
export async function chime(sound: SoundName, volume: number): Promise<boolean> {
  const awake = await wake();
  if (awake === null) return false;
  for (const tone of SOUNDS[sound]) play(awake, tone, volume ** 2);
  return true;
}

/** Inside of a gesture: answers whether there is sound now. */
export async function allowSound(): Promise<boolean> {
  return (await wake()) !== null;
}

async function wake(): Promise<AudioContext | null> {
  try {
    if (context === null) {
      const made = new AudioContext();
      // A phone that rings takes it away and gives it back.
      made.onstatechange = () => look(made);
      context = made;
    }
    // Without a gesture `resume` may stay pending for ever: it is not waited for without an end.
    if (context.state !== 'running') {
      await Promise.race([context.resume(), new Promise((done) => setTimeout(done, 300))]);
    }
    look(context);
    return soundState.value === 'ready' ? context : null;
  } catch {
    soundState.value = 'none';
    return null;
  }
}

function look({ state }: AudioContext): void {
  soundState.value = state === 'running' ? 'ready' : 'blocked';
}

function play(awake: AudioContext, tone: Tone, gain: number): void {
  const atS = awake.currentTime + tone.fromS;
  const endS = atS + tone.lengthS;
  const peak = gain * tone.loudness;
  const oscillator = awake.createOscillator();
  const loudness = awake.createGain();
  oscillator.type = tone.shape;
  oscillator.frequency.setValueAtTime(tone.startHz, atS);
  oscillator.frequency.linearRampToValueAtTime(tone.endHz, endS);
  loudness.gain.setValueAtTime(0, atS);
  loudness.gain.linearRampToValueAtTime(peak, atS + EDGE_S);
  const beforeEndS = endS - EDGE_S;
  if (tone.manner === 'blown') loudness.gain.setValueAtTime(peak, beforeEndS);
  else loudness.gain.linearRampToValueAtTime(FAINT * peak, beforeEndS);
  loudness.gain.linearRampToValueAtTime(0, endS);
  oscillator.connect(loudness).connect(awake.destination);
  oscillator.start(atS);
  oscillator.stop(endS);
}
