/** The page of a van says when its office is not reached, since when, and how much waits; and no longer once all is there. */
import { expect, test, vi } from 'vitest';
import { type BrokerAddress, brokerAddress } from '../../server/vans/broker/broker-address.ts';
import { BrokerConnection } from '../../server/vans/broker/broker-connection.ts';
import { expectAccessible } from '../support/accessible.ts';
import { openBrowser, openDashboard, picture } from '../support/dashboard.ts';
import { testBroker } from '../support/office/broker.ts';
import { runBridge } from '../support/running-bridge.ts';
import { typeInReading } from '../support/typed-reading.ts';

const QUARTER_OF_AN_HOUR_MS = 900_000;
/** An office is tried again after ever longer waits. */
const PATIENCE_MS = 60_000;
vi.setConfig({ testTimeout: 3 * PATIENCE_MS });

test('an office that is not reached, and is again', async () => {
  const [browser, broker] = await Promise.all([
    openBrowser(),
    testBroker({ users: ['office', 'van-1'], secure: false }),
  ]);
  const addressOf = (user: string) =>
    brokerAddress('--publish', {
      url: broker.url,
      loginFile: broker.loginFile(user),
      authorityFile: undefined,
      withoutTls: false,
    });
  await broker.kill();
  // Only what has stood for a while is said: the bridge's clock goes ahead in place of waiting.
  let aheadMs = 0;
  const address = addressOf('van-1');
  const bridge = await runBridge({
    wallClock: () => Date.now() + aheadMs,
    publish: { address, van: 'van-1', withRehearsals: false, withPeople: false },
  });
  const typeIn = (pressurePa: number) => typeInReading(bridge.url, pressurePa);
  aheadMs = QUARTER_OF_AN_HOUR_MS;
  await typeIn(90_000);
  await typeIn(80_000);
  const { page, complaints } = await openDashboard(browser, bridge.url);
  const line = page.getByTestId('office-state');
  await expect
    .poll(() => line.textContent(), { timeout: PATIENCE_MS })
    .toMatch(/^Office not reached since \d\d:\d\d.*\. Readings still to be sent: 2\.$/u);
  await expectAccessible(page);
  await picture(page, 'office-not-reached');

  await broker.start();
  const office = await askedForByOffice(addressOf('office'));
  await line.waitFor({ state: 'detached', timeout: PATIENCE_MS });
  expect(complaints).toEqual([]);
  await browser.close();
  await office.close();
  await bridge.remove();
  await broker.remove();
});

/** A broker keeps what vans publish for an office that has asked for it. */
function askedForByOffice(address: BrokerAddress): Promise<BrokerConnection> {
  return BrokerConnection.open({
    ...{ address, clientId: 'office', sessionS: 3600, receiveMost: 20, will: null },
    ...{ topics: ['ebbline/1/#'], received: ({ acknowledge }) => acknowledge() },
    stopping: new AbortController().signal,
  });
}
