/** A conclusion put into words: a headline, how sure it is, and short sentences that go with it. */
export interface SaidConclusion {
  /** How it is set off, beside the words: never by colour alone. */
  readonly tone: 'calm' | 'good' | 'warning';
  /** Read from two metres away, and so is what makes it sure or not: the interval, in half a sentence. */
  readonly headline: string;
  /** Empty where there is nothing to be sure of. */
  readonly sure: string;
  /** Read from near. */
  readonly detail: readonly string[];
}

/** The same where there is room for sentences only: how sure it is comes first of them. */
export function inSentences({ sure, detail }: SaidConclusion): string[] {
  return sure === '' ? [...detail] : [asSentence(sure), ...detail];
}

export function asSentence(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}
