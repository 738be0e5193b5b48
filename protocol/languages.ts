/** The languages that page and report speak. The bridge itself and its commands speak English. */

export const LANGUAGES = ['en', 'es'] as const;
export type Language = (typeof LANGUAGES)[number];

/** Each in itself: whoever looks for theirs need not read another one. */
export const LANGUAGE_NAMES: Readonly<Record<Language, string>> = {
  en: 'English',
  es: 'Español',
};
