/** Fingers of the plucking hand that are in each other's way, or in two places at once. */
import type { RemarkKind } from '../hand/plucking.ts';
import type { Found, Rule } from './rule.ts';
import { pluckersNamed, remarksOn, type PlacedRemark } from './shared/plucks.ts';
import { listed, quoted } from './shared/words.ts';

const KINDS: ReadonlySet<RemarkKind> = new Set<RemarkKind>(['two-places', 'one-string', 'crossing']);

export const rule: Rule = {
  code: 'pluck-clash',
  severity: 'error',
  topic: 'hands',
  title: 'Fingers of the plucking hand that clash',
  why: 'A finger cannot pluck two strings at one moment unless it brushes over neighbours, which the thumb does with ease and others only sometimes, and two fingers cannot pluck one string at once. Where a finger nearer the thumb plucks a higher string than one beyond it, close in time, they cross: a hint, since the hand has to turn for it.',
  bad: `progression quay
  Em

cell ripple
  each 1/4
  p6+p4 i3 p5+i3 m2

section verse
  progression quay
  cell ripple
`,
  good: `progression quay
  Em

cell ripple
  each 1/4
  p6+i4 i3 p5+i3 m2

section verse
  progression quay
  cell ripple
`,
  check: (context) => remarksOn(context, KINDS).map(findingFor),
};

function findingFor({ kind, fingers, strings, span, cell, chord, melody }: PlacedRemark): Found {
  const who = pluckersNamed(fingers);
  const where = cell ? `in ${quoted(cell.name)}` : `in bar ${chord.bar.number}`;
  const why = melody ? ', one of them for the melody' : '';
  const on = listed(strings.map(String));
  if (kind === 'two-places') {
    const isBrush = strings.every((string, at) => at === 0 || strings[at - 1] - string === 1);
    if (isBrush) {
      const message = `${who} brushes strings ${on} at once ${where}${why}; two fingers would sound them more evenly.`;
      return { span, severity: 'hint', message };
    }
    return { span, message: `${who} is to pluck strings ${on} at once ${where}${why}; give one to another finger.` };
  }
  if (kind === 'one-string') {
    return { span, message: `${who} are to pluck string ${on} at once ${where}; leave one of them out.` };
  }
  const message = `${who} cross on strings ${on} ${where}${why}; swap them, or give them more time.`;
  return { span, severity: 'hint', message };
}
