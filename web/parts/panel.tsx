/** A panel over the page: modal, closed by its button, by Escape or by a click beside it. */
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { speech } from '../store/speech.ts';
import { mayChangeIn, panel } from './panels.ts';

/** What led to the first of the panels: one that was opened from another has nothing else to go back to. */
let opener: HTMLElement | null = null;

function rememberOpener(): void {
  const { activeElement } = document;
  const isOnPage = activeElement !== document.body && activeElement?.closest('dialog') === null;
  if (activeElement instanceof HTMLElement && isOnPage) opener = activeElement;
}

interface PanelProps {
  readonly title: string;
  readonly testId: string;
  /** Told when it is closed, where it is no panel of the page but of the part that asks. */
  readonly closed?: () => void;
  readonly children: ComponentChildren;
}

export function Panel({ title, testId, closed, children }: PanelProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    rememberOpener();
    if (dialog.current?.open === false) dialog.current.showModal();
  }, []);
  // Closed by the dialog itself, so that the focus goes back to what opened it.
  const close = () => dialog.current?.close();
  return (
    <dialog
      ref={dialog}
      class="panel"
      aria-label={title}
      data-testid={testId}
      onClose={() => {
        panel.value = null;
        closed?.();
        opener?.focus();
      }}
      onClick={(event) => {
        if (event.target === dialog.current) close();
      }}
    >
      <div class="panel-inside">
        <div class="panel-head">
          <h1>{title}</h1>
          <button type="button" onClick={close} data-testid="close-panel">
            {speech.value.wording.connection.close}
          </button>
        </div>
        {mayChangeIn(panel.value) ? (
          children
        ) : (
          <>
            <p class="quiet" data-testid="looks-only">
              {speech.value.wording.secondScreen.looksOnly}
            </p>
            <fieldset class="looks-only" disabled>
              {children}
            </fieldset>
          </>
        )}
      </div>
    </dialog>
  );
}
