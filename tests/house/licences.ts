/** Prints every package with its version and licence: `npm run licences`. */
import { lockedPackages } from './packages.ts';

for (const { name, version, licence, isForDevelopment } of lockedPackages()) {
  console.log(`${licence}\t${name} ${version}${isForDevelopment ? ' (development)' : ''}`);
}
