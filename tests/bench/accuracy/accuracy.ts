/** `npm run accuracy`: how right the judge is on worlds that it does not know. */
import { HELP, readOptions } from './options.ts';
import { reportAccuracy } from './report.ts';

const options = readOptions(process.argv.slice(2));
if (options === null) console.log(HELP);
else reportAccuracy(options, (line) => console.log(line));
