/** Entry of a thread for work that takes long: a thread gets no loader for TypeScript from its parent. */
import { register } from 'tsx/esm/api';

register();
await import('./aside-work.ts');
