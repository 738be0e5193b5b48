/** Messages on their way to the broker: a bounded number of them, counted as there in the order in which they went. */
import type { BrokerConnection, Message } from '../broker/broker-connection.ts';

/** Fewer than any usual broker takes unacknowledged of one connection; so memory is bounded too. */
const MOST = 8;

export class Flight {
  readonly #connection: BrokerConnection;
  #underWay: Promise<void>[] = [];

  constructor(connection: BrokerConnection) {
    this.#connection = connection;
  }

  /**
   * Resolves once there is room for another one.
   * @param taken is called once the broker has it, and all that went before
   * @throws Error where one that went before was refused, or was kept for nobody
   */
  async send(message: Message, taken: () => void): Promise<void> {
    const before = this.#underWay.at(-1) ?? Promise.resolve();
    const delivery = this.#connection.publish(message);
    const landing = Promise.all([delivery, before]).then(([outcome]) => {
      if (outcome === 'nobody' && !message.retain) throw new Error(NOBODY);
      taken();
    });
    // Whoever waits for it hears of it; until then it is nobody's.
    landing.catch(() => undefined);
    this.#underWay.push(landing);
    if (this.#underWay.length >= MOST) await this.#underWay.shift();
  }

  /** Resolves once the broker has all of them. */
  async landed(): Promise<void> {
    const all = this.#underWay;
    this.#underWay = [];
    await Promise.all(all);
  }
}

const NOBODY =
  'the broker would keep it for nobody: the office’s collector has never asked for it, or not for too long';
