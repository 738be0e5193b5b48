/** Who rehearses, remembered by this browser. */
import { z } from 'zod';
import { recall, remember } from '../store/remembered.ts';

const KEY = 'trainee';

export function trainee(): string {
  return recall(KEY, z.string(), '');
}

export function rememberTrainee(name: string): void {
  remember(KEY, name);
}
