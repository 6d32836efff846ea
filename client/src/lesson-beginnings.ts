/** What a new lesson can start from: one of the samples, as if its author had just begun it. */

const NEW_TITLE = 'lesson "Untitled lesson"';

/** Without the line that says what the sample teaches, and without its title and author. */
export function begun(sample: string): string {
  return sample
    .replace(/^\uFEFF?(?:;[^\n]*\n|\s*\n)+/, '')
    .replace(/^lesson\s.*$/m, NEW_TITLE)
    .replace(/^[ \t]+by\s.*\n/m, '');
}
