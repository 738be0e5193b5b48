/** Deletes an archived job for good. Asks twice: there is no way back. */
import { useState } from 'preact/hooks';
import { deleteJob, type JobPlace } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { speech } from '../store/speech.ts';
import { lookAgain, sayDone } from './job-search.ts';

const QUESTIONS = ['deleteAsk', 'deleteAskAgain'] as const;

export function DeleteJob({ card }: { readonly card: JobPlace }) {
  const words = speech.value.wording.jobs;
  /** How many of the questions have been put. */
  const [asked, setAsked] = useState(0);
  const question = QUESTIONS[asked - 1];
  if (question === undefined) {
    return (
      <button type="button" onClick={() => setAsked(1)} data-testid="delete-job">
        {words.deleteForGood}
      </button>
    );
  }
  const isLast = asked === QUESTIONS.length;
  const goOn = () => {
    if (isLast) {
      void tell(deleteJob(card)).then(() => {
        sayDone(words.deleted);
        return lookAgain();
      });
    } else setAsked(asked + 1);
  };
  return (
    <div class="ask-twice" role="alert">
      <p>{words[question]}</p>
      <button
        type="button"
        key={asked}
        ref={focused}
        onClick={goOn}
        data-testid={`delete-yes-${asked}`}
      >
        {isLast ? words.reallyDelete : words.goOn}
      </button>
      <button type="button" onClick={() => setAsked(0)}>
        {words.keepIt}
      </button>
    </div>
  );
}

/** Each question stands where the button of the one before was. */
function focused(button: HTMLButtonElement | null): void {
  button?.focus();
}
