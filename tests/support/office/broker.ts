/** A real broker on a port of its own, with TLS, passwords and an access list, as the README's recipe sets it up. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { generate } from 'selfsigned';
import { findProgram, freePort, until } from './debian-tools.ts';

/** As in the README: a van writes what is its own, and reads what it is asked. */
export const ACCESS = `user office
topic read ebbline/1/#
topic write ebbline/1/+/asked

pattern write ebbline/1/%u/#
pattern read ebbline/1/%u/asked
`;

export interface TestBroker {
  readonly url: string;
  readonly port: number;
  /** The authority that signed its certificate, PEM. */
  readonly authorityFile: string;
  processId(): number;
  loginFile(user: string, password?: string): string;
  start(): Promise<void>;
  /** At once, as by a power cut: what it had not written is gone. */
  kill(): Promise<void>;
  remove(): Promise<void>;
}

export async function testBroker({
  users,
  secure = true,
  settings = '',
}: {
  /** Names; each one's password is `PASSWORD-of-NAME`. */
  users: readonly string[];
  secure?: boolean;
  settings?: string;
}): Promise<TestBroker> {
  const program = findProgram('mosquitto', 'mosquitto');
  const folder = mkdtempSync(join(tmpdir(), 'broker-'));
  const port = await freePort();
  const kept = join(folder, 'kept');
  mkdirSync(kept);
  const authorityFile = join(folder, 'authority.pem');
  if (secure) await writeCertificates(folder, authorityFile);
  writeFileSync(join(folder, 'access'), ACCESS);
  writePasswords(join(folder, 'passwords'), users);
  const tls = `certfile ${folder}/broker.pem\nkeyfile ${folder}/broker.key\n`;
  writeFileSync(
    join(folder, 'broker.conf'),
    `per_listener_settings false
listener ${port} 127.0.0.1
${secure ? tls : ''}allow_anonymous false
password_file ${folder}/passwords
acl_file ${folder}/access
persistence true
persistence_location ${kept}/
autosave_interval 2
max_queued_messages 0
max_inflight_messages 2000
${process.getuid?.() === 0 ? 'user root\n' : ''}${settings}`,
  );
  let child: ChildProcess | null = null;
  const start = async (): Promise<void> => {
    child = spawn(program, ['-c', join(folder, 'broker.conf')], { stdio: 'ignore' });
    await until('the broker answers', () => answers(port));
  };
  const kill = async (): Promise<void> => {
    const running = child;
    child = null;
    if (running === null) return;
    running.kill('SIGKILL');
    await once(running, 'exit');
  };
  await start();
  return {
    url: `${secure ? 'mqtts' : 'mqtt'}://127.0.0.1:${port}`,
    port,
    authorityFile,
    start,
    kill,
    processId: () => child?.pid ?? 0,
    loginFile: (user, password = passwordOf(user)) => {
      const file = join(folder, `login-${user}-${password}`);
      writeFileSync(file, `${user}\n${password}\n`);
      chmodSync(file, 0o600);
      return file;
    },
    remove: async () => {
      await kill();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

function passwordOf(user: string): string {
  return `password-of-${user}`;
}

function writePasswords(file: string, users: readonly string[]): void {
  writeFileSync(file, users.map((user) => `${user}:${passwordOf(user)}\n`).join(''));
  chmodSync(file, 0o600);
  const hashed = spawnSync(findProgram('mosquitto_passwd', 'mosquitto'), ['-U', file]);
  if (hashed.status !== 0) throw new Error(`mosquitto_passwd: ${String(hashed.stderr)}`);
}

async function writeCertificates(folder: string, authorityFile: string): Promise<void> {
  const authority = await generate([{ name: 'commonName', value: 'Office authority' }], {
    keyType: 'ec',
    algorithm: 'sha256',
    extensions: [
      { name: 'basicConstraints', cA: true, critical: true },
      { name: 'keyUsage', keyCertSign: true, cRLSign: true, critical: true },
    ],
  });
  const broker = await generate([{ name: 'commonName', value: '127.0.0.1' }], {
    keyType: 'ec',
    algorithm: 'sha256',
    ca: { key: authority.private, cert: authority.cert },
    extensions: [
      { name: 'basicConstraints', cA: false },
      { name: 'subjectAltName', altNames: [{ type: 7, ip: '127.0.0.1' }] },
    ],
  });
  writeFileSync(authorityFile, authority.cert);
  writeFileSync(join(folder, 'broker.pem'), broker.cert);
  writeFileSync(join(folder, 'broker.key'), broker.private, { mode: 0o600 });
}

function answers(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(port, '127.0.0.1', () => {
      socket.destroy();
      resolve(true);
    });
    socket.on('error', () => resolve(false));
  });
}
