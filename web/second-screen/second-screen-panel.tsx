/** The same on another screen: its address to open, to copy, or to point a camera at. */
import { useState } from 'preact/hooks';
import { Panel } from '../parts/panel.tsx';
import { speech } from '../store/speech.ts';
import { codeOf, codePath } from './code-of.ts';
import { isThisMachine } from './is-this-machine.ts';

export function SecondScreenPanel() {
  const [copied, setCopied] = useState<'' | 'done' | 'refused'>('');
  const words = speech.value.wording.secondScreen;
  const address = document.baseURI;
  const code = codeOf(address);
  const copy = () => {
    navigator.clipboard.writeText(address).then(
      () => setCopied('done'),
      () => setCopied('refused'),
    );
  };
  return (
    <Panel title={words.title} testId="second-screen-panel">
      <p>{words.same}</p>
      <div class="second-screen">
        <svg
          class="code"
          viewBox={`0 0 ${code.size} ${code.size}`}
          role="img"
          aria-label={words.code}
          shape-rendering="crispEdges"
        >
          <rect width={code.size} height={code.size} class="code-light" />
          <path d={codePath(code)} class="code-dark" />
        </svg>
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
      </div>
      {isThisMachine(address) && (
        <p class="quiet" data-testid="this-machine-only">
          {words.thisMachine}
        </p>
      )}
    </Panel>
  );
}
