/** The colours of the day's look, on white paper. None of them says anything alone. */
export const PRINT = {
  ink: '#14233b',
  faint: '#53606f',
  rule: '#d9d4c7',
  water: '#25658a',
  buoy: '#b0341a',
  kelp: '#1f6b4f',
  sheet: '#fff',
} as const;
