/** What the lock file says of every package that may be installed. */
import { readFileSync } from 'node:fs';
import { z } from 'zod';

const lockSchema = z.object({
  packages: z.record(
    z.string(),
    z.object({
      version: z.string().optional(),
      license: z.string().optional(),
      integrity: z.string().optional(),
      hasInstallScript: z.boolean().optional(),
      dev: z.boolean().optional(),
      optional: z.boolean().optional(),
    }),
  ),
});

export interface LockedPackage {
  readonly name: string;
  readonly version: string;
  /** As its own package.json says, or as its licence file does where that is silent. */
  readonly licence: string;
  readonly integrity: string | null;
  readonly hasInstallScript: boolean;
  /** Needed by nobody who only uses the program. */
  readonly isForDevelopment: boolean;
}

/** Told by its licence file alone; read there by hand. */
const BY_ITS_FILE: Record<string, string> = {
  'png-js': 'MIT',
  // Bitstream Vera's licence and public domain: free to use, embed and pass on; not to be sold by itself.
  'dejavu-fonts-ttf': 'Bitstream-Vera',
};

/** Each package once for each version of it, by name. */
export function lockedPackages(): LockedPackage[] {
  const lock = lockSchema.parse(
    JSON.parse(readFileSync(new URL('../../package-lock.json', import.meta.url), 'utf8')),
  );
  return Object.entries(lock.packages)
    .filter(([path]) => path !== '')
    .map(([path, { version = '', license, integrity, hasInstallScript, dev }]) => {
      const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
      return {
        name,
        version,
        licence: BY_ITS_FILE[name] ?? license ?? 'none',
        integrity: integrity ?? null,
        hasInstallScript: hasInstallScript ?? false,
        isForDevelopment: dev ?? false,
      };
    })
    .sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
}
