/** An open string that rubs against another note of the chord. */
import type { Rule } from './rule.ts';
import { once, voiced } from './shared/chords.ts';
import { noteNamed } from './shared/seen.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'open-string-clash',
  severity: 'hint',
  topic: 'shapes',
  title: 'An open string that rubs',
  why: 'The open string lies a semitone beside another note, or a minor ninth above it. That can be the very beauty of a voicing, and it can be an accident; only an ear can tell, so listen to it.',
  bad: `progression quay
  D as x-x-4-0-3-5

section verse
  progression quay
`,
  good: `progression quay
  D as x-x-0-2-3-2

section verse
  progression quay
`,
  check: (context) => {
    const { instrument } = context.lesson.settings;
    return once(
      voiced(context).flatMap((chord) =>
        chord.voicing.clashes.map(({ open, against }) => {
          const one = `open string ${open.string} (${noteNamed(instrument, open)})`;
          const other = `${noteNamed(instrument, against)} on string ${against.string}`;
          const message = `In ${quoted(chord.plan.written)} ${one} rubs against ${other}; keep it if you like it, or leave one of them out.`;
          return { chord, message };
        }),
      ),
    );
  },
};
