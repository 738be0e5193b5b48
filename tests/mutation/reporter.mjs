/** Says of each change that the tests did not notice as soon as that is known: the whole takes a while. */
import { relative } from 'node:path';
import { declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';

class SaysWhatIsMissed {
  #count = 0;

  onMutantTested({ fileName, location, mutatorName, replacement, status }) {
    this.#count += 1;
    if (this.#count % 10 === 0) console.error(`${this.#count} were tried`);
    if (status !== 'Survived' && status !== 'NoCoverage') return;
    const place = `${relative('', fileName)}:${location.start.line}:${location.start.column}`;
    const what = status === 'Survived' ? 'unnoticed' : 'untested ';
    console.log(`${what} ${place} ${mutatorName}: ${replacement}`);
  }
}

export const strykerPlugins = [declareClassPlugin(PluginKind.Reporter, 'missed', SaysWhatIsMissed)];
