/** What a command prints, and how it ends. */
import { vi } from 'vitest';

type Run = (argv: readonly string[], write: (line: string) => void) => number | Promise<number>;

/** Whoever uses it restores the mock of the console's errors. */
export async function saidBy(run: Run, argv: readonly string[]) {
  const out: string[] = [];
  const error: string[] = [];
  vi.spyOn(console, 'error').mockImplementation((text) => error.push(String(text)));
  const status = await run(argv, (line) => out.push(line));
  return { out: out.join('\n'), error: error.join('\n'), status };
}
