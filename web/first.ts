/** Imported before everything else: zod must not probe for `eval`, which the page's policy forbids. */
import { z } from 'zod';

z.config({ jitless: true });
