/** How this page speaks: the language and the units that were chosen here, or the system's language. */
import { computed, effect, signal } from '@preact/signals';
import { type Language, LANGUAGES } from '../../protocol/languages.ts';
import { english, type Wording } from '../words/english.ts';
import { speechIn } from '../words/speech.ts';
import { choices } from './choices.ts';

/** English comes with the page; another language is fetched, or taken from what the browser keeps of it. */
const OTHERS: Readonly<Record<Exclude<Language, 'en'>, () => Promise<Wording>>> = {
  es: async () => (await import('../words/spanish.ts')).spanish,
};

const fetched = signal<Readonly<Partial<Record<Language, Wording>>>>({ en: english });
const ofSystem = signal(systemLanguage(navigator.languages));

/** The language that is wished for. */
const language = computed<Language>(() => {
  const chosen = choices.value.language;
  return chosen === 'system' ? ofSystem.value : chosen;
});

/**
 * The page waits so long for its language at most before it opens in English: a bridge that takes the call and
 * never answers would leave it empty. A setting of ours.
 */
const LANGUAGE_LIMIT_MS = 5000;

/** The language that is wished for and could not be had; null where nothing is missing. */
export const missingLanguage = signal<Language | null>(null);

/** Until another language is there, English. */
export const speech = computed(() => {
  const wording = fetched.value[language.value];
  const { pressure, temperature } = choices.value;
  const units = { pressure, temperature };
  return wording === undefined
    ? speechIn('en', english, units)
    : speechIn(language.value, wording, units);
});

/** Keeps to the language of choice from now on; resolves once it can be spoken, or is known not to come. */
export async function followLanguage(root: HTMLElement): Promise<void> {
  window.addEventListener('languagechange', () => {
    ofSystem.value = systemLanguage(navigator.languages);
  });
  effect(() => {
    root.lang = speech.value.language;
  });
  effect(() => void learn(language.value));
  const late = new Promise((resolve) => window.setTimeout(resolve, LANGUAGE_LIMIT_MS));
  await Promise.race([learn(language.peek()), late]);
  noteMissing();
}

function noteMissing(): void {
  const wanted = language.peek();
  missingLanguage.value = fetched.peek()[wanted] === undefined ? wanted : null;
}

/** The first of the system's languages that the page speaks. */
function systemLanguage(wished: readonly string[]): Language {
  for (const tag of wished) {
    const known = LANGUAGES.find((one) => tag.toLowerCase().split('-')[0] === one);
    if (known !== undefined) return known;
  }
  return 'en';
}

async function learn(wanted: Language): Promise<void> {
  if (wanted !== 'en' && fetched.peek()[wanted] === undefined) {
    try {
      const wording = await OTHERS[wanted]();
      fetched.value = { ...fetched.peek(), [wanted]: wording };
    } catch {
      // Without a network, before the browser kept it, or of a bridge that has another version of it by now:
      // the page goes on in the language that it speaks, and says so.
    }
  }
  noteMissing();
}
