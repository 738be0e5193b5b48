/** Notes what is said at the end of a hold, and at the end of its repetition. */
import type { RepeatLine } from './lines.ts';
import { Subject } from './subject.ts';
import type { RepeatTrial } from './trials.ts';

const HOLD_S = 900;

export function tellRepeat({
  world,
  seed,
  points,
  marks,
  holds,
  leakPaPerS,
}: RepeatTrial): RepeatLine {
  const subject = new Subject(points, marks);
  const said = ({ isolatedS }: RepeatTrial['holds'][number]) =>
    subject.judge(isolatedS + HOLD_S).rise;
  const [first, second] = [said(holds[0]), said(holds[1])];
  return {
    what: 'repeat',
    world,
    seed,
    trueLeakPaPerS: leakPaPerS,
    kinds: [holds[0].kind, holds[1].kind],
    verdicts: [first?.verdict ?? 'none', second?.verdict ?? 'none'],
    leaksPaPerS: [first?.leakPaPerS ?? null, second?.leakPaPerS ?? null],
  };
}
