/** What a reveal adds to the marks on a curve: pure. */
import type { Call, Reveal } from '../../protocol/api.ts';
import type { ChartFlag } from '../figure/chart-lines.ts';
import type { Speech } from '../words/speech.ts';

interface Told {
  readonly call: Pick<Call, 'elapsedS'> | null;
  readonly reveal: Pick<Reveal, 'toldS'> | null;
}

/** Nothing before the reveal: a flag on the call's moment alone would hide marks for nothing. */
export function revealedMoments({ call, reveal }: Told, { wording }: Speech): ChartFlag[] {
  if (reveal === null) return [];
  const words = wording.reveal;
  return [
    ...(reveal.toldS === null ? [] : [{ elapsedS: reveal.toldS, label: words.told }]),
    ...(call === null ? [] : [{ elapsedS: call.elapsedS, label: words.called }]),
  ];
}
