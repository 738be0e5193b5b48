/** Entry of the writer's thread: a thread gets no loader for TypeScript from its parent. */
import { register } from 'tsx/esm/api';

register();
await import('./writer.ts');
