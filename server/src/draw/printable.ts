/** Text of a lesson as a terminal may have it. */

/** Control characters would move a terminal's cursor; they are shown as a mark of their own. */
export const printable = (text: string): string =>
  text.replace(/\p{Control}|[\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu, '\ufffd');
