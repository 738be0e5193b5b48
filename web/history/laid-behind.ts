/** Another job's curve behind the one that is shown: which, and from which moment of both it is laid. */
import { signal } from '@preact/signals';
import type { JobCard, JobCurve } from '../../protocol/job-card.ts';
import { jobCurves } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';

export const ALIGNMENTS = ['pump_on', 'valve_off'] as const;
export type Alignment = (typeof ALIGNMENTS)[number];

interface LaidBehind {
  readonly card: JobCard;
  readonly curves: readonly JobCurve[];
  readonly from: Alignment;
}

export const laidBehind = signal<LaidBehind | null>(null);

/** @returns whether it lies there; what went wrong is told */
export async function layBehind(card: JobCard): Promise<boolean> {
  const curves = await tell(jobCurves(card));
  if (curves === null) return false;
  laidBehind.value = { card, curves, from: 'pump_on' };
  return true;
}

export function layFrom(from: Alignment): void {
  const laid = laidBehind.peek();
  if (laid !== null) laidBehind.value = { ...laid, from };
}
