/** On the laptop: a code for one more screen, and the screens that are paired. */
import { useState } from 'preact/hooks';
import {
  PAIRED_ROLES,
  type PairedRole,
  PAIRING_FRAGMENT,
  type SharedScreen,
  type SharingState,
} from '../../protocol/sharing.ts';
import { clockWords } from '../parts/clock-words.ts';
import { PickOne } from '../parts/pick-one.tsx';
import { speech } from '../store/speech.ts';
import { QrCode } from './qr-code.tsx';
import { justPaired, showCode, shownCode, unpair } from './sharing-now.ts';

interface SharePartProps {
  readonly state: Extract<SharingState, { on: true }>;
}

export function SharePart({ state }: SharePartProps) {
  const { sharing: words } = speech.value.wording.secondScreen;
  const [role, setRole] = useState<PairedRole>('watch');
  const [chosen, setChosen] = useState('');
  const address = state.addresses.find((one) => one === chosen) ?? state.addresses[0];
  if (address === undefined) return <p data-testid="no-network">{words.noNetwork}</p>;
  return (
    <>
      <h2>{words.title}</h2>
      {state.addresses.length > 1 && (
        <PickOne
          legend={words.network}
          name="network"
          options={state.addresses}
          chosen={address}
          label={(one) => new URL(one).hostname}
          pick={setChosen}
        />
      )}
      <PickOne
        legend={words.roleAsked}
        name="role"
        options={PAIRED_ROLES}
        chosen={role}
        label={(one) => words.roles[one]}
        pick={(one) => {
          setRole(one);
          // A code that is in sight is for what was chosen when it was made.
          shownCode.value = null;
        }}
      />
      <p class="quiet">{words.roleMeans[role]}</p>
      {shownCode.value === null ? (
        <button
          type="button"
          class="urgent"
          data-testid="show-code"
          onClick={() => void showCode(role)}
        >
          {words.show}
        </button>
      ) : (
        <ShownCode address={address} />
      )}
      {justPaired.value !== null && (
        <p class="found" role="status" data-testid="just-paired">
          {words.paired({ name: justPaired.value })}
        </p>
      )}
      <p>{words.warning}</p>
      <p>
        {words.fingerprint}
        <br />
        <b class="fingerprint" data-testid="fingerprint">
          {inTwoLines(state.fingerprint)}
        </b>
      </p>
      <p class="quiet">{words.cost}</p>
      <h2>{words.screens}</h2>
      {state.screens.length === 0 && <p class="quiet">{words.none}</p>}
      <ul class="recordings" data-testid="paired-screens">
        {state.screens.map((screen) => (
          <PairedScreen key={screen.id} screen={screen} />
        ))}
      </ul>
    </>
  );
}

/** Sixteen pairs each: one line is compared, then the other. */
function inTwoLines(fingerprint: string) {
  const pairs = fingerprint.split(':');
  const half = pairs.length / 2;
  return (
    <>
      {pairs.slice(0, half).join(' ')}
      <br />
      {pairs.slice(half).join(' ')}
    </>
  );
}

function ShownCode({ address }: { readonly address: string }) {
  const { sharing: words, code } = speech.value.wording.secondScreen;
  const pairing = shownCode.value?.pairing;
  if (pairing === undefined) return null;
  const half = pairing.typed.length / 2;
  return (
    <div class="second-screen">
      <QrCode address={`${address}${PAIRING_FRAGMENT}${pairing.secret}`} label={code} />
      <div class="second-screen-ways">
        <p>{words.scan}</p>
        <p>
          <b data-testid="shared-address">{address}</b>
        </p>
        <p>
          {words.typed}
          <br />
          <b class="typed-code" data-testid="typed-code">
            {pairing.typed.slice(0, half)} {pairing.typed.slice(half)}
          </b>
        </p>
        <p class="quiet">
          {words.goodFor({ time: clockWords(pairing.expiresAtMs, speech.value) })}
        </p>
      </div>
    </div>
  );
}

function PairedScreen({ screen }: { readonly screen: SharedScreen }) {
  const { sharing: words } = speech.value.wording.secondScreen;
  const { id, name, role, connected, lastSeenAtMs } = screen;
  const lastSeen = words.lastSeen({ time: clockWords(lastSeenAtMs, speech.value) });
  return (
    <li data-testid={`paired-${id}`}>
      <div>
        <b>{name}</b>
        <span>
          {words.roles[role]} · {connected ? words.here : lastSeen}
        </span>
      </div>
      <button type="button" data-testid={`unpair-${id}`} onClick={() => void unpair(id)}>
        {words.unpair}
      </button>
    </li>
  );
}
