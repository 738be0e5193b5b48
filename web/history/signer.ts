/** Who signed last on this computer: mostly it is the same person. */
import { z } from 'zod';
import { recall, remember } from '../store/remembered.ts';

const signerSchema = z.object({ name: z.string(), licence: z.string() });
type Signer = z.infer<typeof signerSchema>;

export function recalledSigner(): Signer {
  return recall('signer', signerSchema, { name: '', licence: '' });
}

export function rememberSigner(signer: Signer): void {
  remember('signer', signer);
}
