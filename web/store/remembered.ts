/**
 * What this browser remembers, under one prefix, each value parsed on its way in. A browser that
 * refuses to store anything still works: it forgets.
 */
import type { z } from 'zod';

const PREFIX = 'ebbline.';

export function recall<T>(key: string, schema: z.ZodType<T>, otherwise: T): T {
  try {
    const text = localStorage.getItem(PREFIX + key);
    if (text === null) return otherwise;
    const parsed = schema.safeParse(JSON.parse(text));
    return parsed.success ? parsed.data : otherwise;
  } catch {
    return otherwise;
  }
}

export function remember(key: string, value: unknown): void {
  try {
    localStorage.setItem(PREFIX + key, JSON.stringify(value));
  } catch {
    // Storage is full or forbidden; nothing on the page depends on it.
  }
}
