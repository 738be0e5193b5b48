/** Reckons the chains of all recordings anew, one after the other. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import type { Verified } from '../../protocol/verified.ts';
import { OF_NO_RECORDING } from './fact-tables.ts';
import { ChainVerifier } from './verify-chain.ts';

export function verifyAll(database: Database.Database): Verified[] {
  const ids = database.prepare('SELECT id FROM recording ORDER BY id').pluck().all();
  const verifier = new ChainVerifier(database);
  return [OF_NO_RECORDING, ...z.array(z.int()).parse(ids)].map((id) => {
    const steps = verifier.verify(id);
    for (;;) {
      const step = steps.next();
      if (step.done === true) return step.value.verified;
    }
  });
}
