/** What grows around the cursor as an editor is asked to select more: word, chord, bar, line, block, definition, lesson. */
import type { Analysis } from '../analyze.ts';
import { isGroup, type Part } from '../syntax/tree.ts';
import { cutWords, isBlank, type Word } from '../syntax/words.ts';
import { covers, shifted, spanning, type Span } from '../util/span.ts';
import { statementAt, wholeOf } from './place.ts';

/** From the innermost outwards; each holds the one before and is longer, the last is the whole text. Any offset is allowed. */
export function selectionsAt(analysis: Analysis, offset: number): readonly Span[] {
  const { text } = analysis;
  const at = Math.max(0, Math.min(offset, text.length));
  const found: Span[] = [];
  for (const span of candidates(analysis, at)) {
    const last = found.at(-1);
    if (span.end <= span.start || !covers(span, at)) continue;
    const grows =
      !last || (span.start <= last.start && last.end <= span.end && span.end - span.start > last.end - last.start);
    if (grows) found.push(span);
  }
  return found.length > 0 ? found : [{ start: 0, end: text.length }];
}

/** Roughly from small to large; what does not fit around what came before is passed over. */
function candidates(analysis: Analysis, at: number): readonly Span[] {
  const { text, lines } = analysis;
  const all: Span = { start: 0, end: text.length };
  const statement = statementAt(analysis, at);
  if (!statement) return [...wordsAround(text, lineAround(analysis, at), at), all];
  const { tree, start } = statement;
  const line = lineAround(analysis, at);
  const whole = wholeOf(statement);
  const outer = [whole, runOfStatements(analysis, whole), all];
  const comment = tree.comments.find((one) => covers(shifted(one, start), at));
  if (comment) {
    const span = shifted(comment, start);
    const says = text.slice(span.start, span.end).replace(/^;\s*/, '');
    return [
      wordOfProse(text, span, at),
      { start: span.end - says.length, end: span.end },
      span,
      line,
      block(analysis, line, all),
      ...outer,
    ];
  }
  const prose = tree.prose && shifted(tree.prose, start);
  if (prose && covers(prose, at)) {
    const paragraph = block(analysis, line, prose);
    const inner = { start: prose.start + text.slice(prose.start, prose.end).search(/\S/), end: prose.end };
    return [
      ...factAround(text, line, at),
      wordOfProse(text, line, at),
      sentence(text, paragraph, at),
      line,
      paragraph,
      inner,
      ...outer,
    ];
  }
  const own = [tree.head, ...tree.body].find((one) => covers(shifted(one, start), at));
  const body = tree.body.length > 0 ? shifted(spanning(tree.body), start) : whole;
  return [
    ...wordsAround(text, line, at),
    ...(own ? groupsAround(own.parts, at - start).map((one) => shifted(one, start)) : []),
    ...(own ? partsOfLine(text, shifted(own, start), shifted(own.keyword, start), at) : []),
    ...(own ? [shifted(own, start)] : []),
    line,
    block(analysis, line, body),
    body,
    ...outer,
  ];

  /** The words that share a line with the offset, without the blanks around them. */
  function lineAround({ lines: { starts } }: Analysis, offset: number): Span {
    const number = lines.lineAt(offset);
    const words = lines.line(number);
    const from = starts[number] + (words.length - words.trimStart().length);
    return { start: from, end: from + words.trim().length };
  }
}

/** The word at the offset, what is between its quotes first. */
function wordsAround(text: string, line: Span, at: number): readonly Span[] {
  const { words } = cutWords(text.slice(line.start, line.end), line.start);
  const isMark = ({ kind }: Word): boolean => kind === 'bar' || kind === 'comma' || kind === 'colon';
  // Between two words that touch it is the one that is no mark, and else the one that begins there.
  const touching = words.filter((one) => covers(one, at));
  const word =
    touching.find((one) => !isMark(one) && one.start <= at && at < one.end) ?? touching.find((one) => !isMark(one));
  if (!word) return [];
  const { start, end, kind, unclosed } = word;
  return [...(kind === 'quoted' ? [{ start: start + 1, end: unclosed ? end : end - 1 }] : []), { start, end }];
}

/** The words that belong together around the offset, the fewest first: a note with its length, `at 8`, a chord with all behind it. */
function groupsAround(parts: readonly Part[], at: number): readonly Span[] {
  const group = parts.find((part) => isGroup(part) && covers(part, at));
  return group && isGroup(group) ? [...groupsAround(group.parts, at), group] : [];
}

/** The bar around the offset, where the line has bars, and all behind the keyword. */
function partsOfLine(text: string, line: Span, keyword: Span, at: number): readonly Span[] {
  const { words } = cutWords(text.slice(keyword.end, line.end), keyword.end);
  if (words.length === 0) return [];
  const bars = words.filter(({ kind }) => kind === 'bar');
  const from = bars.filter(({ end }) => end <= at).at(-1)?.end ?? keyword.end;
  const to = bars.find(({ start }) => at <= start)?.start ?? line.end;
  const inBar = bars.length > 0 ? words.filter(({ start, end }) => from <= start && end <= to) : [];
  return [...(inBar.length > 0 ? [spanning(inBar)] : []), spanning(words)];
}

/** The lines around `line` inside `within`, up to the next blank one on either side. */
function block({ text, lines }: Analysis, line: Span, within: Span): Span {
  const isLine = (number: number): boolean =>
    number >= 0 &&
    number < lines.lineCount &&
    lines.line(number).trim() !== '' &&
    lines.starts[number] + lines.line(number).length > within.start &&
    lines.starts[number] < within.end;
  let first = lines.lineAt(line.start);
  let last = lines.lineAt(line.end);
  while (isLine(first - 1)) first--;
  while (isLine(last + 1)) last++;
  const start = Math.max(within.start, lines.starts[first]);
  const behind = Math.min(within.end, lines.starts[last] + lines.line(last).length);
  const said = text.slice(start, behind);
  return { start: start + said.length - said.trimStart().length, end: start + said.trimEnd().length };
}

/** Statements that follow one another without a blank line, such as the settings at the head of a lesson. */
function runOfStatements(analysis: Analysis, whole: Span): Span {
  return block(analysis, whole, { start: 0, end: analysis.text.length });
}

// ---- prose ----------------------------------------------------------------------------------------------------------

/** The step of a fact in braces, its path, and the braces with it. */
function factAround(text: string, line: Span, at: number): readonly Span[] {
  for (const { 0: whole, 1: path, index } of text.slice(line.start, line.end).matchAll(/\\\{|\{([^{}]*)\}/g)) {
    const braces = { start: line.start + index, end: line.start + index + whole.length };
    if (path === undefined || !covers(braces, at)) continue;
    const inner = { start: braces.start + 1, end: braces.end - 1 };
    const steps = [...path.matchAll(/[^.]+/g)].map((step) =>
      shifted({ start: step.index, end: step.index + step[0].length }, inner.start),
    );
    return [...steps.filter((step) => covers(step, at)).slice(-1), inner, braces];
  }
  return [];
}

/** Letters, digits and what joins them; else all up to the next blank. */
function wordOfProse(text: string, within: Span, at: number): Span {
  const run = (belongs: (sign: string) => boolean): Span => {
    let [start, end] = [at, at];
    while (start > within.start && belongs(text[start - 1])) start--;
    while (end < within.end && belongs(text[end])) end++;
    return { start, end };
  };
  const word = run((sign) => /[\p{L}\p{M}\p{N}’'#♭♯-]/u.test(sign));
  return word.end > word.start ? word : run((sign) => !isBlank(sign));
}

/** Up to the sign that ends it, which a blank or the paragraph's end follows. */
function sentence(text: string, paragraph: Span, at: number): Span {
  const words = text.slice(paragraph.start, paragraph.end);
  let start = 0;
  for (const end of words.matchAll(/[.!?…]["”’)*_]*(?=\s)/g)) {
    const behind = end.index + end[0].length;
    if (paragraph.start + behind >= at) return { start: paragraph.start + start, end: paragraph.start + behind };
    start = behind + words.slice(behind).search(/\S/);
  }
  return { start: paragraph.start + start, end: paragraph.end };
}
