/** Waits until the adapter can be used, or says why it can't. */
import { ProblemError, type ProblemCode } from '../../../protocol/problems.ts';
import type { HostLibrary } from '../../sources/radio/host-library.ts';

const PROBLEM_OF_STATE: Readonly<Record<string, ProblemCode>> = {
  poweredOff: 'adapter_off',
  unauthorized: 'no_permission',
  unsupported: 'no_bluetooth',
};

/** @throws ProblemError */
export function adapterOn(library: HostLibrary, limitMs: number): Promise<void> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new ProblemError('no_adapter')), limitMs);
    // The libraries begin when somebody listens to their state; one says so by a warning where it can't.
    library.on('warning', (text) => {
      if (!String(text).includes('Initialization of USB device failed')) return;
      clearTimeout(timer);
      const isForbidden = /EPERM|EACCES|not permitted/u.test(String(text));
      reject(new ProblemError(isForbidden ? 'no_permission' : 'no_adapter', String(text)));
    });
    library.on('stateChange', (state) => {
      const problem = PROBLEM_OF_STATE[String(state)];
      if (state !== 'poweredOn' && problem === undefined) return;
      clearTimeout(timer);
      if (problem === undefined) resolve();
      else reject(new ProblemError(problem));
    });
  });
}
