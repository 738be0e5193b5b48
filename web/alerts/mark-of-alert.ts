/** What is marked when one does as an alert says: pure. */
import type { MarkKind } from '../../protocol/mark.ts';
import type { AlertFact } from '../words/alert-fact.ts';

export function markOfAlert({ kind }: AlertFact): MarkKind | null {
  if (kind === 'ballast_open') return 'ballast_closed';
  return kind === 'depth' ? 'isolated' : null;
}
