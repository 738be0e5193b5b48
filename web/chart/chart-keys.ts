/** What the keys mean while the chart has the focus: pure. */

export type ChartKey =
  | { readonly kind: 'zoom'; readonly factor: number }
  /** In widths of the picture. */
  | { readonly kind: 'step'; readonly by: number }
  | { readonly kind: 'move'; readonly by: number }
  | { readonly kind: 'beginning' | 'present' | 'all' | 'usual' };

/** Forty steps across the picture. A setting of ours. */
const STEP = 1 / 40;

export function chartKey(key: string, shift: boolean): ChartKey | null {
  switch (key) {
    case '+':
    case '=':
      return { kind: 'zoom', factor: 0.5 };
    case '-':
    case '\u2212':
      return { kind: 'zoom', factor: 2 };
    case 'ArrowLeft':
      return shift ? { kind: 'move', by: -0.2 } : { kind: 'step', by: -STEP };
    case 'ArrowRight':
      return shift ? { kind: 'move', by: 0.2 } : { kind: 'step', by: STEP };
    case 'PageUp':
      return { kind: 'move', by: -0.8 };
    case 'PageDown':
      return { kind: 'move', by: 0.8 };
    case 'Home':
      return { kind: 'beginning' };
    case 'End':
      return { kind: 'present' };
    case '0':
      return { kind: 'all' };
    case 'Escape':
      return { kind: 'usual' };
    default:
      return null;
  }
}
