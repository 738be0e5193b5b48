/**
 * The tool's way to run tests, but for one thing: it asks only tests, and where a test file fails while it is read (it
 * works something out for all its tests, and the change makes that throw) there are none to ask. That run fails for
 * everybody else, so it does here.
 */
import { INSTRUMENTER_CONSTANTS } from '@stryker-mutator/api/core';
import {
  commonTokens,
  declareFactoryPlugin,
  PluginKind,
  tokens,
} from '@stryker-mutator/api/plugin';
import { DryRunStatus, TestStatus } from '@stryker-mutator/api/test-runner';
import { VitestTestRunner } from './node_modules/@stryker-mutator/vitest-runner/dist/src/vitest-test-runner.js';

class AsksWholeFiles extends VitestTestRunner {
  /** @override */
  async run(options) {
    const result = await super.run(options);
    if (result.status !== DryRunStatus.Complete) return result;
    if (result.tests.some(({ status }) => status === TestStatus.Failed)) return result;
    const unread = this.ctx.state.getFiles().find((file) => file.result?.state === 'fail');
    if (unread === undefined) return result;
    const failureMessage = unread.result?.errors?.[0]?.message ?? 'the file could not be read';
    const told = { id: unread.name, name: unread.name, timeSpentMs: 0 };
    const failed = { ...told, status: TestStatus.Failed, failureMessage };
    return { ...result, tests: [...result.tests, failed] };
  }
}

function newRunner(injector) {
  return injector
    .provideValue('globalNamespace', INSTRUMENTER_CONSTANTS.NAMESPACE)
    .injectClass(AsksWholeFiles);
}
newRunner.inject = tokens(commonTokens.injector);

export const strykerPlugins = [
  declareFactoryPlugin(PluginKind.TestRunner, 'whole-files', newRunner),
];
