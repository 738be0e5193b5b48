/** The sound of an alert, made by the browser itself: three notes that carry over a running pump. */
import { signal } from '@preact/signals';

/**
 * `blocked` until somebody has touched the page: browsers play nothing before that. `none` where
 * there is no sound at all.
 */
export const soundState = signal<'blocked' | 'ready' | 'none'>('blocked');

const NOTES_HZ = [880, 1175, 1568] as const;
const NOTE_S = 0.22;

let context: AudioContext | null = null;

/** From the first gesture on, sound is allowed: the context must be made or woken inside of one. */
export function allowSoundOnGesture(): void {
  const allow = () => void wake();
  window.addEventListener('pointerdown', allow);
  window.addEventListener('keydown', allow);
}

/** Answers whether it could be heard. */
export async function chime(): Promise<boolean> {
  const awake = await wake();
  if (awake === null) return false;
  for (const [position, hertz] of NOTES_HZ.entries()) {
    playNote(awake, hertz, awake.currentTime + position * NOTE_S);
  }
  return true;
}

async function wake(): Promise<AudioContext | null> {
  try {
    context ??= new AudioContext();
    // Without a gesture `resume` may stay pending for ever: it is not waited for without an end.
    if (context.state !== 'running') {
      await Promise.race([context.resume(), new Promise((done) => setTimeout(done, 300))]);
    }
    soundState.value = context.state === 'running' ? 'ready' : 'blocked';
    return soundState.value === 'ready' ? context : null;
  } catch {
    soundState.value = 'none';
    return null;
  }
}

function playNote(awake: AudioContext, hertz: number, atS: number): void {
  const tone = awake.createOscillator();
  const loudness = awake.createGain();
  tone.type = 'triangle';
  tone.frequency.value = hertz;
  // A hard start or end would click.
  loudness.gain.setValueAtTime(0, atS);
  loudness.gain.linearRampToValueAtTime(0.5, atS + 0.02);
  loudness.gain.linearRampToValueAtTime(0, atS + NOTE_S);
  tone.connect(loudness).connect(awake.destination);
  tone.start(atS);
  tone.stop(atS + NOTE_S);
}
