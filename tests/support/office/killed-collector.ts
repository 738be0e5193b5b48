/** A collector that is killed when a batch is committed and the broker not told yet. Options: URL, login, authority, database. */
import { brokerAddress } from '../../../server/vans/broker/broker-address.ts';
import { Collector } from '../../../server/vans/office/collector.ts';

const [url = '', loginFile, authorityFile, database] = process.argv.slice(2);
const address = brokerAddress('--broker', { url, loginFile, authorityFile, withoutTls: false });
new Collector({
  address,
  database,
  log: () => undefined,
  committed: ({ readings }) => {
    if (readings > 0) process.kill(process.pid, 'SIGKILL');
  },
}).start();
