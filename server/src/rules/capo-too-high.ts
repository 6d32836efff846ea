/** A capo that leaves a shape no room. */
import type { Rule } from './rule.ts';
import { crowdedOut } from './shared/capo.ts';
import { ruleOf } from './shared/chords.ts';
import { deleteLines, replaceWith } from './shared/fixes.ts';
import { counted, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'capo-too-high',
  severity: 'error',
  topic: 'shapes',
  title: 'A capo that leaves too few frets',
  why: 'Frets are counted from the capo, and the neck ends where it ends: the higher the capo, the fewer are left. The shape has a voicing of the chord, but here it would lie beyond the last fret. A lower capo, or a shape nearer the nut, makes room.',
  bad: `capo 13

shape lamp
  strings 4 2 1
  tones 3 R 5

progression quay
  G

section verse
  progression quay
  shape lamp
`,
  good: `capo 3

shape lamp
  strings 4 2 1
  tones 3 R 5

progression quay
  G

section verse
  progression quay
  shape lamp
`,
  *check(context) {
    const chords = crowdedOut(context);
    const span = context.lesson.settingSpans.capo;
    const [first] = chords.keys();
    if (!span || !first) return;
    const { instrument } = context.lesson.settings;
    const { fret } = instrument.capo!;
    const room = Math.min(...chords.values());
    const symbols = new Set([...chords.keys()].map(({ plan }) => plan.written));
    const others = symbols.size > 1 ? ` and ${counted(symbols.size - 1, 'other chord')}` : '';
    const shape = quoted(ruleOf(first)!.name);
    const words = context.text.slice(span.start, span.end);
    yield {
      span,
      message:
        `A capo at ${fret} leaves ${counted(instrument.frets - fret, 'fret')}, too few for ${quoted(first.plan.written)}` +
        `${others} in ${shape}; ${room > 0 ? `put it at ${room} or lower` : 'take it off'}.`,
      related: [...chords.keys()].map(({ place }) => ({ span: place.span, message: 'This chord has no room.' })),
      fixes: [
        room > 0
          ? replaceWith(span, words.replace(/\d+/, `${room}`))
          : deleteLines(span, context.text, `Delete ${quoted(words)}`),
      ],
    };
  },
};
