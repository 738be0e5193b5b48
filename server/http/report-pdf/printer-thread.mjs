/** Entry of the thread that prints: a thread gets no loader for TypeScript from its parent. */
import { register } from 'tsx/esm/api';

register();
await import('./printer.ts');
