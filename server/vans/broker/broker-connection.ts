/** The one file that knows the MQTT library: a single connection to a broker, until it breaks. */
import { connect, type IClientOptions, type IPublishPacket, type MqttClient } from 'mqtt';
import type { BrokerAddress } from './broker-address.ts';
import { disconnected, nameOf, refused, whatToDo } from './broker-words.ts';

/** How long a broker may take to answer, ms. */
const CONNECT_WITHIN_MS = 20_000;
/** A connection that says nothing for one and a half of these is lost, s. */
const KEEPALIVE_S = 30;

const NO_MATCHING_SUBSCRIBERS = 16;

export interface Message {
  readonly topic: string;
  readonly payload: string;
  readonly retain: boolean;
  /** After so long nobody needs it any more, s; null: never. */
  readonly expiryS: number | null;
}

/** `nobody`: the broker has it, and keeps it for no one. */
export type Delivery = 'taken' | 'nobody';

interface Received {
  readonly topic: string;
  readonly payload: Buffer;
  /** Tells the broker that it need not be sent again. */
  readonly acknowledge: () => void;
}

export interface ConnectionWishes {
  readonly address: BrokerAddress;
  readonly clientId: string;
  /** How long the broker keeps what comes meanwhile, s; 0: it forgets at once. */
  readonly sessionS: number;
  /** As many messages wait here to be acknowledged at most. */
  readonly receiveMost: number;
  /** What the broker says if the connection breaks. */
  readonly will: Message | null;
  readonly topics: readonly string[];
  readonly received: (message: Received) => void;
  /** Nobody waits for it any more: opening it is given up. */
  readonly stopping: AbortSignal;
}

export class BrokerConnection {
  /** Resolves with the reason once it is over. */
  readonly closed: Promise<string>;
  #closedBecause: string | null = null;
  readonly #client: MqttClient;
  readonly #toNobody = new Set<number>();
  /** What waits for the broker's answer. */
  readonly #underWay = new Set<(error: Error) => void>();

  /** @throws Error in words that say what to do */
  static async open(wishes: ConnectionWishes): Promise<BrokerConnection> {
    const client = connect(clientOptions(wishes));
    // At once: what the broker kept comes right behind its first answer.
    const connection = new BrokerConnection(client, wishes);
    const giveUp = (): void => connection.abort();
    wishes.stopping.addEventListener('abort', giveUp);
    try {
      await connection.#opened(wishes.address);
    } catch (error) {
      connection.abort();
      throw error;
    } finally {
      wishes.stopping.removeEventListener('abort', giveUp);
    }
    if (wishes.topics.length === 0) return connection;
    try {
      await client.subscribeAsync([...wishes.topics], { qos: 1 });
      return connection;
    } catch (error) {
      connection.abort();
      const topics = wishes.topics.join(', ');
      throw new Error(
        `${nameOf(wishes.address)} does not allow reading ${topics} (${String(error)}): see its access list`,
        { cause: error },
      );
    }
  }

  private constructor(client: MqttClient, { address, received }: ConnectionWishes) {
    this.#client = client;
    let reason: string | null = null;
    client.on('error', (error) => (reason ??= whatToDo(error, address)));
    client.on('disconnect', ({ reasonCode }) => (reason ??= disconnected(reasonCode)));
    this.closed = new Promise((resolve) => {
      client.once('close', () => {
        const said = reason ?? `the connection to ${nameOf(address)} is lost`;
        this.#closedBecause = said;
        for (const reject of this.#underWay) reject(new Error(said));
        resolve(said);
      });
    });
    client.on('packetreceive', (packet) => {
      if (packet.cmd !== 'puback' || packet.messageId === undefined) return;
      if (packet.reasonCode === NO_MATCHING_SUBSCRIBERS) this.#toNobody.add(packet.messageId);
    });
    const { stream } = client;
    const handleMessage = (packet: IPublishPacket, next: (error?: Error) => void): void => {
      received({
        topic: packet.topic,
        payload: Buffer.from(packet.payload),
        acknowledge: () => {
          if (client.connected && packet.qos === 1) stream.write(puback(packet));
        },
      });
      // With an error the library goes on to the next packet and leaves the acknowledgement to us: so many
      // messages can share one transaction.
      next(new Error('acknowledged once it is kept'));
    };
    Object.assign(client, { handleMessage });
  }

  /** Null as long as it stands. */
  get closedBecause(): string | null {
    return this.#closedBecause;
  }

  #opened(address: BrokerAddress): Promise<void> {
    return new Promise((resolve, reject) => {
      this.#client.once('connect', () => resolve());
      // After some of them the library leaves the connection as it is.
      this.#client.once('error', (error) => reject(new Error(whatToDo(error, address))));
      void this.closed.then((reason) => reject(new Error(reason)));
    });
  }

  /**
   * Resolves once the broker has it.
   * @throws Error where the broker refuses it, or the connection ends before
   */
  publish({ topic, payload, retain, expiryS }: Message): Promise<Delivery> {
    const properties: IPublishPacket['properties'] = {
      contentType: 'application/json',
      payloadFormatIndicator: true,
      ...(expiryS === null ? {} : { messageExpiryInterval: expiryS }),
    };
    return new Promise((resolve, reject) => {
      if (this.#closedBecause !== null) throw new Error(this.#closedBecause);
      this.#underWay.add(reject);
      this.#client.publish(topic, payload, { qos: 1, retain, properties }, (error, packet) => {
        this.#underWay.delete(reject);
        const id = packet?.cmd === 'publish' ? packet.messageId : undefined;
        if (error) reject(new Error(refused(error, topic), { cause: error }));
        else resolve(id !== undefined && this.#toNobody.delete(id) ? 'nobody' : 'taken');
      });
    });
  }

  /** Ends in order. */
  async close(): Promise<void> {
    await Promise.race([this.#client.endAsync(false), this.closed]);
  }

  /** Ends at once; what is under way is lost, and the broker says the last words. */
  abort(): void {
    this.#client.stream.destroy();
    this.#client.end(true);
  }
}

function clientOptions({
  address,
  clientId,
  sessionS,
  receiveMost,
  will,
}: ConnectionWishes): IClientOptions {
  const { host, port, secure, authority, login } = address;
  return {
    protocol: secure ? 'mqtts' : 'mqtt',
    host,
    port,
    protocolVersion: 5,
    clientId,
    clean: sessionS === 0,
    // Whoever uses it connects anew, from what is known to be kept: nothing waits in this library.
    reconnectPeriod: 0,
    resubscribe: false,
    connectTimeout: CONNECT_WITHIN_MS,
    keepalive: KEEPALIVE_S,
    properties: { receiveMaximum: receiveMost, sessionExpiryInterval: sessionS },
    ...(secure && authority !== null ? { ca: authority } : {}),
    ...(login === null ? {} : { username: login.user, password: login.password }),
    ...(will === null
      ? {}
      : {
          will: {
            topic: will.topic,
            payload: Buffer.from(will.payload),
            qos: 1 as const,
            retain: will.retain,
          },
        }),
  };
}

/** MQTT 5, 3.4: the packet's kind, its length, the message's number; no reason means success. */
function puback({ messageId = 0 }: IPublishPacket): Buffer {
  return Buffer.of(0x40, 2, messageId >> 8, messageId & 0xff);
}
