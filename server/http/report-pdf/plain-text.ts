/** Text as it can be printed. */

/** Signs that no paper can show, but for the end of a line. */
const UNPRINTABLE = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028\u2029\ufffe\uffff]/gu;

/** Each of those stands as the sign for 'unreadable', as on the web page. */
export function plainText(text: string): string {
  return text.replaceAll(UNPRINTABLE, '\ufffd');
}
