/** The same on another screen: its address to open, to copy, or to point a camera at; and screens that are let in. */
import { useEffect, useState } from 'preact/hooks';
import { unpairThisScreen } from '../connection/sharing-api.ts';
import { notice } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { speech } from '../store/speech.ts';
import { may, thisScreen } from '../store/this-screen.ts';
import { isThisMachine } from './is-this-machine.ts';
import { QrCode } from './qr-code.tsx';
import { SharePart } from './share-part.tsx';
import { keepLookingAtSharing, sharing } from './sharing-now.ts';

export function SecondScreenPanel() {
  const words = speech.value.wording.secondScreen;
  return (
    <Panel title={words.title} testId="second-screen-panel">
      <p>{words.same}</p>
      {may('owner') ? <OnTheLaptop /> : <OnAPairedScreen />}
    </Panel>
  );
}

function OnTheLaptop() {
  useEffect(keepLookingAtSharing, []);
  const words = speech.value.wording.secondScreen;
  const state = sharing.value;
  if (state?.on === true) {
    return (
      <>
        <SharePart state={state} />
        <SecondWindow />
      </>
    );
  }
  const address = document.baseURI;
  return (
    <>
      <div class="second-screen">
        <QrCode address={address} label={words.code} />
        <SecondWindow />
      </div>
      {isThisMachine(address) && (
        <p class="quiet" data-testid="this-machine-only">
          {words.thisMachine}
        </p>
      )}
    </>
  );
}

/** On the same computer nothing has to be paired. */
function SecondWindow() {
  const [copied, setCopied] = useState<'' | 'done' | 'refused'>('');
  const words = speech.value.wording.secondScreen;
  const address = document.baseURI;
  const copy = () => {
    navigator.clipboard.writeText(address).then(
      () => setCopied('done'),
      () => setCopied('refused'),
    );
  };
  return (
    <div class="second-screen-ways">
      <p>
        <b data-testid="address">{address}</b>
      </p>
      <button type="button" onClick={copy}>
        {words.copy}
      </button>
      <a class="button" href={address} target="_blank" rel="noreferrer">
        {words.open}
      </a>
      <p role="status">{copied === '' ? '' : words[copied]}</p>
    </div>
  );
}

function OnAPairedScreen() {
  const { sharing: words } = speech.value.wording.secondScreen;
  const { role, name } = thisScreen.value;
  const leave = async () => {
    const answer = await unpairThisScreen();
    if (answer.ok) window.location.reload();
    else notice.value = answer;
  };
  return (
    <>
      <p data-testid="paired-as">
        <b>{name}</b> {words.pairedAs[role]}
      </p>
      <button type="button" data-testid="leave" onClick={() => void leave()}>
        {words.leave}
      </button>
    </>
  );
}
