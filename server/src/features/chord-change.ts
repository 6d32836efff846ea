/** Edits that a reader of the preview chooses: a chord pinned to a voicing, set free again, an open string added or dropped. */
import type { Analysis } from '../analyze.ts';
import { lowestPressed } from '../draw/spoken.ts';
import { formatFretList, parseFretList, type FretList } from '../fretboard/frets.ts';
import { stringCount } from '../fretboard/instrument.ts';
import type { ShapeDefinition } from '../lesson/lesson.ts';
import type { PreviewChange } from '../protocol.ts';
import type { Edit } from '../util/finding.ts';
import { covers, type Span } from '../util/span.ts';
import { ruleFor, type ChordHere } from './preview-chord.ts';
import { sameFrets, voicingsFor } from './preview-voicings.ts';

/** What is written, in a line for the reader; without edits, why nothing can be. */
export interface Change {
  readonly says: string;
  readonly edits: readonly Edit[];
}

const refused = (says: string): Change => ({ says, edits: [] });

export function changeOf(analysis: Analysis, here: ChordHere, change: PreviewChange): Change {
  if (change.kind === 'open') return openChange(analysis, here, change.string, change.rings);
  const where = pinPlace(analysis, here);
  if (typeof where === 'string') return refused(where);
  if (change.kind === 'unpin') return unpinned(analysis, here, where);
  const frets = parseFretList(change.frets, stringCount(analysis.lesson.settings.instrument));
  if (!frets) return refused('These are no frets of this instrument.');
  const pin = pinFor(analysis, here, frets);
  const { text } = analysis;
  const edit: Edit = where.pin
    ? { span: where.pin, text: pin }
    : { span: { start: where.symbol.end, end: where.symbol.end }, text: ` ${pin}` };
  return {
    says: `${text.slice(where.symbol.start, where.symbol.end)} ${pin}${elsewhere(analysis, here)}`,
    edits: [edit],
  };
}

interface PinPlace {
  readonly symbol: Span;
  /** `at 8` or `as x79900`, where the chord has one. */
  readonly pin?: Span;
}

/** Where a chord's pin is written or would be; or why it can't be. */
function pinPlace({ lesson, text }: Analysis, { section, address }: ChordHere): PinPlace | string {
  const place = section.places[address.bar]?.chords[address.chord];
  const progression = place && lesson.progressions.find(({ whole }) => covers(whole, place.span.start));
  if (progression?.from) return `The progression is written in ${progression.from.path}: pin the chord there.`;
  if (!place || !progression) return 'These bars are written out: there is no chord symbol to pin a voicing to.';
  const symbol = text.slice(place.symbolSpan.start, place.symbolSpan.end);
  if (symbol === '%') return 'This bar repeats the one before it (%): pin the chord there, or write it out here.';
  if (symbol === '/') return 'The chord is held on here (/): pin it where it begins.';
  const pin = place.modifiers.at ?? place.modifiers.as;
  return { symbol: place.symbolSpan, ...(pin && { pin }) };
}

/** The position where it says which voicing is meant, and else all frets: what is short stays true in another key. */
function pinFor(analysis: Analysis, here: ChordHere, frets: FretList): string {
  const { section, address, plan } = here;
  const { as } = section.places[address.bar].chords[address.chord].modifiers;
  const lowest = lowestPressed(frets);
  if (plan.rule !== undefined && !as && lowest !== undefined) {
    const there = voicingsFor(analysis, here, lowest)?.voicings ?? [];
    if (there.length === 1 && sameFrets(there[0].frets, frets)) return `at ${lowest}`;
  }
  return `as ${formatFretList(frets)}`;
}

function unpinned(analysis: Analysis, here: ChordHere, { symbol, pin }: PinPlace): Change {
  const name = analysis.text.slice(symbol.start, symbol.end);
  if (!pin) return refused(`${name} has no pin.`);
  // With the blank before it.
  let { start } = pin;
  while (start > symbol.end && /\s/.test(analysis.text[start - 1])) start--;
  return {
    says: `${name}, free again${elsewhere(analysis, here)}`,
    edits: [{ span: { start, end: pin.end }, text: '' }],
  };
}

/** Where else the same words are played, so that nobody is surprised by it. */
function elsewhere({ lesson }: Analysis, { section, address }: ChordHere): string {
  const { span } = section.places[address.bar].chords[address.chord];
  let others = 0;
  lesson.sections.forEach(({ places }, at) =>
    places.forEach(({ chords }, bar) =>
      chords.forEach((chord, index) => {
        const same = at === address.section && bar === address.bar && index === address.chord;
        if (!same && chord.span.start === span.start) others++;
      }),
    ),
  );
  if (others === 0) return '';
  return `; the same words are played at ${others === 1 ? 'one more place' : `${others} more places`}`;
}

/** What a shape's `open` line would say with a string more or less; undefined where no line of this text can say it. */
export function openLineWith(
  analysis: Analysis,
  here: ChordHere,
  string: number,
  rings: boolean,
): { readonly line: string; readonly shape: string } | undefined {
  const shape = shapeOf(analysis, here);
  const { open, strings } = shape?.rule ?? {};
  if (!shape || !strings || open === undefined || open === 'any' || strings.includes(string)) return undefined;
  if (open.includes(string) === rings) return undefined;
  const wanted = rings ? [...open, string].sort((a, b) => b - a) : open.filter((one) => one !== string);
  return { line: wanted.length === 0 ? 'no open line' : `open ${wanted.join(' ')}`, shape: shape.name };
}

/** The shape of this text that the chord follows. */
function shapeOf({ lesson }: Analysis, here: ChordHere): ShapeDefinition | undefined {
  if (here.plan.rule === undefined) return undefined;
  const { name } = ruleFor(here);
  const shape = lesson.shapes.find((one) => one.name === name);
  return shape && !shape.from && !shape.broken ? shape : undefined;
}

function openChange(analysis: Analysis, here: ChordHere, string: number, rings: boolean): Change {
  const wanted = openLineWith(analysis, here, string, rings);
  const shape = shapeOf(analysis, here);
  if (!wanted || !shape) return refused('The shape of this chord has no open line in this text that could say it.');
  const says = `shape ${shape.name}: ${wanted.line}`;
  const { open, strings } = shape.lines;
  const { text, lines } = analysis;
  if (!open) {
    const { line } = lines.positionAt(strings.end);
    const own = lines.line(line);
    const indent = /^\s*/.exec(own)![0];
    const after = strings.start - lines.positionAt(strings.start).character + own.length;
    const newline = text.includes('\r\n') ? '\r\n' : '\n';
    return { says, edits: [{ span: { start: after, end: after }, text: `${newline}${indent}${wanted.line}` }] };
  }
  if (wanted.line.startsWith('open')) return { says, edits: [{ span: open, text: wanted.line }] };
  // The line goes as a whole, with its line end.
  const { line } = lines.positionAt(open.start);
  const start = lines.offsetAt({ line, character: 0 });
  const end = lines.offsetAt({ line: line + 1, character: 0 });
  return { says, edits: [{ span: { start, end: Math.max(end, open.end) }, text: '' }] };
}
