/** The page of a van says when its office is not reached, since when, and how much waits; and no longer once all is there. */
import { expect, test } from 'vitest';
import { brokerAddress } from '../../server/vans/broker/broker-address.ts';
import { expectAccessible } from '../support/accessible.ts';
import { openBrowser, openDashboard, picture } from '../support/dashboard.ts';
import { testBroker } from '../support/office/broker.ts';
import { runBridge } from '../support/running-bridge.ts';

const QUARTER_OF_AN_HOUR_MS = 900_000;

test('an office that is not reached, and is again', async () => {
  const [browser, broker] = await Promise.all([
    openBrowser(),
    testBroker({ users: ['van-1'], secure: false }),
  ]);
  await broker.kill();
  // What is said has stood for a while: the test's clock goes ahead in place of waiting.
  let aheadMs = 0;
  const address = brokerAddress('--publish', {
    url: broker.url,
    loginFile: broker.loginFile('van-1'),
    authorityFile: undefined,
    withoutTls: false,
  });
  const bridge = await runBridge({
    wallClock: () => Date.now() + aheadMs,
    publish: { address, van: 'van-1', withRehearsals: false, withPeople: false },
  });
  const typeIn = (pressurePa: number) =>
    fetch(new URL('api/typed-in', bridge.url), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ pressurePa, temperatureC: null }),
    });
  await typeIn(90_000);
  const { page, complaints } = await openDashboard(browser, bridge.url);
  const line = page.getByTestId('office-state');
  await page.getByTestId('reading').waitFor();
  expect(await line.isHidden(), 'at first nobody needs to know').toBe(true);

  aheadMs = QUARTER_OF_AN_HOUR_MS;
  await typeIn(80_000);
  await expect
    .poll(() => line.textContent(), { timeout: 20_000 })
    .toMatch(/^Office not reached since \d\d:\d\d.*\. Readings still to be sent: 2\.$/u);
  await expectAccessible(page);
  await picture(page, 'office-not-reached');

  await broker.start();
  await line.waitFor({ state: 'detached' });
  expect(complaints).toEqual([]);
  await browser.close();
  await bridge.remove();
  await broker.remove();
});
