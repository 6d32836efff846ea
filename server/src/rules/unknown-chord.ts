/** A word that is no chord symbol. */
import { parseChord, suspendsMinor } from '../theory/chord.ts';
import { nearest } from '../util/nearest.ts';
import type { ProblemData, Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

const SUFFIXES = [
  'maj7',
  'm7b5',
  'dim7',
  'sus2',
  'sus4',
  '7sus4',
  'add9',
  'madd9',
  'maj9',
  'min',
  'dim',
  'aug',
  'm7',
  'm9',
];

/** Words behind a chord that a slip turns into what looks like another chord. */
const MODIFIERS = ['held', 'pushed', 'over', 'with'];

export const rule: Rule = {
  code: 'unknown-chord',
  severity: 'error',
  topic: 'music',
  title: 'A chord that cannot be read',
  why: 'The bar keeps its place, but nothing can be played for a symbol that says no chord. All spellings of the trade are read: `Am7`, `Cmaj7`, `CM7`, `C7(b9, #11)`, `D/F#`, and numerals such as `vi7`. B flat is `Bb`, and the note above it `B`.',
  bad: `progression quay
  G | Amoll
`,
  good: `progression quay
  G | Am
`,
  problem: {
    message(data) {
      const right = meant(data);
      if (suspendsMinor(data.found)) {
        const write = right ? `: write ${quoted(right)}.` : '.';
        return `${quoted(data.found)} asks for a minor third and suspends it; a suspended chord has no third${write}`;
      }
      const ending = right ? `do you mean ${quoted(right)}?` : 'write it as in `Am7`, `Cmaj7` or `D/F#`.';
      return `${quoted(data.found)} is no chord I can read; ${ending}`;
    },
    fixes(data, span) {
      const right = meant(data);
      return right ? [replaceWith(span, right)] : [];
    },
  },
};

/** The chord that was meant: the names that players elsewhere give B natural and minor, a small h, a slip in the ending. */
function meant({ found, right }: ProblemData): string | undefined {
  if (right) return right;
  // The suspension takes the third that the `m` names.
  if (suspendsMinor(found)) {
    const suspended = found.replace(/^([A-G][#b♯♭]*)(?:min|mi|m|-)/, '$1');
    return parseChord(suspended) ? suspended : undefined;
  }
  const modifier = nearest(found, MODIFIERS);
  if (modifier) return modifier;
  const respelt = found
    .replace(/^[Hh]/, 'B')
    .replace(/^[a-g]/, (letter) => letter.toUpperCase())
    .replace(/(\d)th$/, '$1');
  const candidates = [respelt, respelt.replace(/-?moll?$/i, 'm'), respelt.replace(/-?dur$/i, '')];
  const readable = candidates.find((one) => one !== found && parseChord(one));
  if (readable) return readable;
  const split = /^([A-G][#b]?)(.{3,})$/.exec(respelt);
  const suffix = split && nearest(split[2], SUFFIXES);
  return suffix ? `${split[1]}${suffix}` : undefined;
}
