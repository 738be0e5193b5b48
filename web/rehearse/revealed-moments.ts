/** What a reveal adds to the marks on a curve: pure. */
import type { Call, Reveal } from '../../protocol/api.ts';
import type { ChartFlag } from '../figure/chart-lines.ts';
import { REVEAL_WORDS } from '../words/say-reveal.ts';

interface Told {
  readonly call: Pick<Call, 'elapsedS'> | null;
  readonly reveal: Pick<Reveal, 'toldS'> | null;
}

/** Nothing before the reveal: a flag on the call's moment alone would hide marks for nothing. */
export function revealedMoments({ call, reveal }: Told): ChartFlag[] {
  if (reveal === null) return [];
  return [
    ...(reveal.toldS === null ? [] : [{ elapsedS: reveal.toldS, label: REVEAL_WORDS.told }]),
    ...(call === null ? [] : [{ elapsedS: call.elapsedS, label: REVEAL_WORDS.called }]),
  ];
}
