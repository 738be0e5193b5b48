/** A conclusion put into words: a headline, and short sentences that go with it. */
export interface SaidConclusion {
  /** How it is set off, beside the words: never by colour alone. */
  readonly tone: 'calm' | 'good' | 'warning';
  readonly headline: string;
  readonly detail: readonly string[];
}
