/** A part that a variant replaces, and that the lesson does not play. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'nothing-to-replace',
  severity: 'warning',
  topic: 'names',
  title: 'Nothing to replace',
  why: 'A variant replaces a part wherever the lesson calls for it by name. No section calls for this one, so that the line changes nothing. Chords without a shape are played by a built-in rule that nobody names: name it in the section, and a variant can replace it.',
  bad: `progression quay
  G | C

section verse
  progression quay

variant plain
  tempo 60
  shape barre-chords instead of open-chords
`,
  good: `progression quay
  G | C

section verse
  progression quay
  shape open-chords

variant plain
  tempo 60
  shape barre-chords instead of open-chords
`,
  problem: {
    message: ({ kind, name, same }) =>
      same === 'yes'
        ? `${quoted(name)} in its own place changes nothing; name another ${kind}, or delete the line.`
        : `No section calls for ${kind} ${quoted(name)}, so nothing is replaced; name a ${kind} that is played.`,
  },
};
