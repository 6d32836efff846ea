/**
 * The TextMate grammar, made from the table of statements: every keyword is coloured where it can stand and nowhere else.
 * It colours words by their form; whether they mean anything is for the findings to say.
 */
import type { Pattern } from './patterns.ts';
import { wordsOf, slotsOf } from './patterns.ts';
import type { SlotKind } from './slots.ts';
import { statements, type LineForm, type StatementForm } from './statements.ts';

/** What stands in a grammar file; see the manual of Oniguruma for the expressions. */
export interface Rule {
  readonly name?: string;
  readonly contentName?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly while?: string;
  readonly include?: string;
  readonly captures?: Captures;
  readonly beginCaptures?: Captures;
  readonly patterns?: readonly Rule[];
}
type Captures = Readonly<Record<string, Rule>>;

export interface Grammar {
  readonly information: string;
  readonly name: string;
  readonly scopeName: string;
  readonly fileTypes: readonly string[];
  readonly patterns: readonly Rule[];
  readonly injections: Readonly<Record<string, Rule>>;
  readonly repository: Readonly<Record<string, Rule>>;
}

const scope = (name: string): string => `${name}.stringcourse`;
const named = (name: string): Rule => ({ name: scope(name) });

/** Where a word may begin and must end: at white space, a bar line, a comma, a colon, a bracket of a triplet. */
const BEFORE = '(?<![^\\s|,:(])';
const AFTER = '(?![^\\s|,:)])';
const SIGNS = '[#b♯♭♮]*';
/** The rest of a chord symbol, with brackets that hold blanks and commas. */
const SUFFIX = '[^\\s|,:()]*(?:\\([^()|]*\\)[^\\s|,:()]*)*';
const NUMERAL = '[#b♯♭]*(?:VII|VI|IV|V|III|II|I|vii|vi|iv|v|iii|ii|i)';
const NOT_A_MODE = '(?:at|as|over|in|with|held|pushed)|(?:[A-H]b?|b?(?:[IV]+|[iv]+))(?:m|M|maj|min|dim|aug|sus|o)?';

/** The kinds of word that one expression tells; from the most particular to the plainest, which is the order they are tried in. */
const forms: readonly { readonly kinds: readonly SlotKind[]; readonly match: string; readonly name: string }[] = [
  { kinds: ['date'], match: '\\d{4}-\\d{1,2}-\\d{1,2}', name: 'constant.numeric.date' },
  { kinds: ['length', 'meter'], match: '\\d+/\\d+', name: 'constant.numeric.length' },
  { kinds: ['finger'], match: '[pimac]', name: 'variable.parameter.finger' },
  { kinds: ['note', 'tonic', 'tuning', 'bass'], match: `[A-Ga-g]${SIGNS}-?\\d*`, name: 'constant.other.note' },
  { kinds: ['chord'], match: NUMERAL + SUFFIX, name: 'entity.name.type.numeral' },
  { kinds: ['chord'], match: `[A-G]${SUFFIX}`, name: 'entity.name.type.chord' },
  { kinds: ['tone', 'bass'], match: '(?:R|[#b♯♭]*\\d+)', name: 'constant.other.tone' },
  { kinds: ['tone or any'], match: '(?:any|R|[#b♯♭]*\\d+)', name: 'constant.other.tone' },
  { kinds: ['number', 'string', 'fret'], match: '\\d+', name: 'constant.numeric' },
  { kinds: ['measure', 'tempo'], match: '\\d+(?:\\.\\d+)?(?:mm)?', name: 'constant.numeric' },
  { kinds: ['frets'], match: '[xX\\d][xX\\d-]*', name: 'constant.numeric.frets' },
  { kinds: ['mode'], match: `(?!(?:${NOT_A_MODE})${AFTER})\\p{L}[\\p{L}-]*`, name: 'support.constant.mode' },
  { kinds: ['tuning'], match: '\\p{L}[^\\s|,:]*', name: 'support.constant.tuning' },
  { kinds: ['name'], match: '\\p{L}[^\\s|,:()]*', name: 'variable.other.name' },
  { kinds: ['syllable'], match: '[^\\s|,:]+', name: 'string.unquoted.syllable' },
];

/** Kinds that take a rule of the repository. */
const included: Partial<Record<SlotKind, string>> = {
  title: 'title',
  path: 'title',
  pluck: 'pluck',
  step: 'step',
  sign: 'sign',
  'tab sign': 'tab-sign',
  'pluck row': 'plucking',
  'finger row': 'fingers',
  'palm row': 'palm',
};

const repository: Readonly<Record<string, Rule>> = {
  comment: {
    patterns: [
      {
        match: '(?<![^\\s])(;)\\s*(allow)\\s+([a-z][a-z-]*)\\s*$',
        name: scope('comment.line.semicolon'),
        captures: {
          1: named('punctuation.definition.comment'),
          2: named('keyword.other.allow'),
          3: named('constant.other.finding'),
        },
      },
      {
        match: '(?<![^\\s])(;).*$',
        name: scope('comment.line.semicolon'),
        captures: { 1: named('punctuation.definition.comment') },
      },
    ],
  },
  title: {
    name: scope('string.quoted.double'),
    begin: '["“”„]',
    end: '["“”]|$',
    patterns: [{ match: '\\\\["\\\\]', name: scope('constant.character.escape') }],
  },
  bar: { match: '\\|', name: scope('punctuation.separator.bar') },
  mark: { match: '[,:]', name: scope('punctuation.separator') },
  triplet: {
    patterns: [
      {
        match: `${BEFORE}(triplet)(\\()`,
        captures: { 1: named('keyword.operator.word'), 2: named('punctuation.section.triplet') },
      },
      { match: '\\)', name: scope('punctuation.section.triplet') },
    ],
  },
  silence: {
    patterns: [
      { match: `${BEFORE}-${AFTER}`, name: scope('constant.language.hold') },
      { match: `${BEFORE}r${AFTER}`, name: scope('constant.language.rest') },
    ],
  },
  pluck: {
    patterns: [
      { include: '#silence' },
      {
        match: `${BEFORE}(down|up|roll|mute)(?:(\\()([^()|]*)(\\)))?(>)?${AFTER}`,
        captures: {
          1: named('support.function.stroke'),
          2: named('punctuation.section.strings'),
          3: {
            patterns: [
              { match: '\\d+', name: scope('constant.numeric') },
              { match: '\\bto\\b', name: scope('keyword.operator.word') },
            ],
          },
          4: named('punctuation.section.strings'),
          5: named('keyword.operator.accent'),
        },
      },
      {
        match: '(?<![^\\s|,:(+>])([pimac])(?:(\\d+)|(\\()(bass|alt|top)(\\)))(>)?(?![^\\s|,:)+])',
        captures: {
          1: named('variable.parameter.finger'),
          2: named('constant.numeric'),
          3: named('punctuation.section.strings'),
          4: named('variable.language.string'),
          5: named('punctuation.section.strings'),
          6: named('keyword.operator.accent'),
        },
      },
      { match: '\\+', name: scope('keyword.operator.pinch') },
    ],
  },
  step: {
    patterns: [
      { include: '#silence' },
      {
        match: `${BEFORE}([+-]?\\d+)([#b♯♭]*)${AFTER}`,
        captures: { 1: named('constant.numeric.step'), 2: named('keyword.operator.bent') },
      },
      { match: `${BEFORE}(?:R|[#b♯♭]+\\d+)${AFTER}`, name: scope('constant.other.tone') },
    ],
  },
  sign: {
    patterns: [
      { include: '#silence' },
      { match: `${BEFORE}[xX]${AFTER}`, name: scope('constant.language.dead') },
      {
        // A ghost's brackets belong to it; one that closes a triplet does not.
        match: `${BEFORE}(?=[^\\s|,:]*\\d)(?:[^\\s|,:()]|\\([^\\s|,:()]*\\))+${AFTER}`,
        captures: {
          0: {
            patterns: [
              { match: '\\d+', name: scope('constant.numeric.fret') },
              { match: '[^\\d\\s]+', name: scope('keyword.operator.technique') },
            ],
          },
        },
      },
    ],
  },
  repeat: { match: `${BEFORE}(?:\\.{3}|\u2026)${AFTER}`, name: scope('keyword.operator.repeat') },
  'tab-sign': { patterns: [{ include: '#repeat' }, { include: '#sign' }] },
  plucking: {
    patterns: [
      { include: '#silence' },
      { include: '#repeat' },
      {
        match: `${BEFORE}[pimac](?:\\+[pimac])*${AFTER}`,
        captures: {
          0: {
            patterns: [
              { match: '[pimac]', name: scope('variable.parameter.finger') },
              { match: '\\+', name: scope('keyword.operator.pinch') },
            ],
          },
        },
      },
    ],
  },
  fingers: {
    patterns: [
      { include: '#silence' },
      { include: '#repeat' },
      {
        match: `${BEFORE}[0-4tT](?:\\+[0-4tT])*${AFTER}`,
        captures: {
          0: {
            patterns: [
              { match: '[0-4tT]', name: scope('constant.numeric.finger') },
              { match: '\\+', name: scope('keyword.operator.pinch') },
            ],
          },
        },
      },
    ],
  },
  palm: {
    patterns: [
      { include: '#silence' },
      { include: '#repeat' },
      { match: `${BEFORE}\\*${AFTER}`, name: scope('keyword.operator.technique') },
    ],
  },
  fact: {
    patterns: [
      { match: '\\\\\\{', name: scope('constant.character.escape') },
      {
        match: '(\\{)([^{}]*)(\\})',
        name: scope('meta.template.fact'),
        captures: {
          1: named('punctuation.definition.fact'),
          2: {
            patterns: [
              { match: '\\p{L}[\\p{L}\\d-]*', name: scope('variable.other.fact') },
              { match: '\\d+', name: scope('constant.numeric') },
              { match: '\\.', name: scope('punctuation.accessor') },
            ],
          },
          3: named('punctuation.definition.fact'),
        },
      },
      {
        match: '^(;).*$',
        name: scope('comment.line.semicolon'),
        captures: { 1: named('punctuation.definition.comment') },
      },
    ],
  },
  stranger: { begin: '^\\s+(?=[^\\s;])', end: '$', patterns: [{ include: '#comment' }, { include: '#title' }] },
};

/** The grammar as `syntaxes/stringcourse.tmLanguage.json` holds it. */
export function textmateGrammar(): Grammar {
  return {
    information:
      'Written from the table of statements by .scripts/write-grammar.mjs: change that table, not this file.',
    name: 'Stringcourse',
    scopeName: 'source.stringcourse',
    fileTypes: ['lesson'],
    patterns: [{ include: '#comment' }, ...statements.map((form) => ({ include: `#${form.keyword}-statement` }))],
    // Facts are seen in Markdown of any kind, and a comment in the first column is never prose.
    injections: { 'L:meta.prose.stringcourse': { patterns: [{ include: '#fact' }] } },
    repository: {
      ...repository,
      ...Object.fromEntries(statements.map((form) => [`${form.keyword}-statement`, statementRule(form)])),
      ...Object.fromEntries([...places()].map(([pattern, name]) => [name, { patterns: rulesOf(pattern) }])),
    },
  };
}

/** A name in the repository for what may stand behind each keyword; statements and lines that share a pattern share the rules. */
function places(): ReadonlyMap<Pattern, string> {
  const names = new Map<Pattern, string>();
  for (const form of statements) {
    if (!names.has(form.head)) names.set(form.head, `behind-${form.keyword}`);
    for (const line of form.body)
      if (!names.has(line.pattern)) names.set(line.pattern, `behind-${form.keyword}-${line.label}`);
  }
  return names;
}

const behind = (pattern: Pattern): readonly Rule[] => [{ include: `#${places().get(pattern)}` }];

function statementRule(form: StatementForm): Rule {
  const keyword = named('keyword.control.statement');
  const head = beginning(`^`, form.keyword, form.head, keyword, named('entity.name.function'));
  const rest = behind(form.head);
  if (form.prose) {
    return {
      ...head,
      contentName: scope('meta.prose'),
      while: '^(?: {2}|\\t|[ \\x{a0}]|(?=;|\\s*$))',
      patterns: [{ include: '#comment' }, { include: 'text.html.markdown' }],
    };
  }
  if (form.body.length === 0) return { ...head, end: '$', patterns: rest };
  const lines = form.body.filter((line) => line.keyword !== undefined).map(lineRule);
  const music = form.body.find((line) => line.keyword === undefined);
  const others = music ? musicRule(music) : { include: '#stranger' };
  // A line that lost its indent joins the body here as it does in the tree.
  const unindented = form.body.flatMap((line) => (line.keyword && !isStatement(line.keyword) ? [line.keyword] : []));
  const joins = unindented.length > 0 ? `|(?:${unindented.map(literal).join('|')})${AFTER}` : '';
  return { ...head, while: `^(?=[\\s;]${joins})`, patterns: [...lines, others, ...rest] };
}

const isStatement = (word: string): boolean => statements.some((form) => form.keyword === word);

function lineRule(line: LineForm): Rule {
  const keyword = named('keyword.other.line');
  const indent = isStatement(line.keyword!) ? '^\\s+' : '^\\s*';
  return {
    ...beginning(indent, line.keyword!, line.pattern, keyword, named('variable.other.name')),
    end: '$',
    patterns: behind(line.pattern),
  };
}

/** A line that is music from its first word on; in a tab that word is a string. */
function musicRule(line: LineForm): Rule {
  const [first] = flat(line.pattern);
  const [form] = first.is === 'slot' ? formsOf([first.kind]) : [];
  const patterns = behind(line.pattern);
  if (!form) return { ...repository.stranger, patterns };
  return {
    begin: `^\\s+(?=[^\\s;])(?:(${form.match})${AFTER})?`,
    end: '$',
    beginCaptures: { 1: named(form.name) },
    patterns,
  };
}

/** A line's keyword, and the word behind it where its kind is certain: a name that is spelt like a keyword is a name there. */
function beginning(start: string, word: string, pattern: Pattern, keyword: Rule, name: Rule): Rule {
  const [first] = flat(pattern);
  const slot = first?.is === 'slot' && !included[first.kind] ? first : undefined;
  const kind = slot && formsOf([slot.kind]);
  if (!slot || kind?.length !== 1)
    return { begin: `${start}(${literal(word)})${AFTER}`, beginCaptures: { 1: keyword } };
  return {
    begin: `${start}(${literal(word)})(?:\\s+(${kind[0].match}))?${AFTER}`,
    beginCaptures: { 1: keyword, 2: slot.label === 'name' ? name : named(kind[0].name) },
  };
}

/** What may stand on a line: words that belong together first, then each word by itself. */
function rulesOf(pattern: Pattern): readonly Rule[] {
  const words = wordsOf(pattern);
  const taken = new Set<Pattern>();
  const rules: Rule[] = [{ include: '#comment' }, ...groupsOf(pattern, words.includes('pushed'), taken)];
  if (words.includes('triplet(')) rules.push({ include: '#triplet' });
  const choices = choicesOf(pattern);
  const plain = words.filter((word) => !choices.includes(word) && word !== 'triplet(' && word !== ')');
  rules.push(...wordRule(choices, 'support.constant.choice'));
  rules.push(...wordRule(plain.filter(isWord), wordScope(words.includes('pushed'))));
  rules.push(
    ...wordRule(
      plain.filter((word) => !isWord(word)),
      'keyword.operator.sign',
    ),
  );
  // What only stands behind a word of its own is coloured with that word.
  const kinds = [
    ...new Set(
      slotsOf(pattern)
        .filter((slot) => !taken.has(slot))
        .map((slot) => slot.kind),
    ),
  ];
  const lengths = formsOf(kinds.filter((kind) => kind === 'length'));
  for (const { match, name } of lengths) rules.push({ match: BEFORE + match + AFTER, name: scope(name) });
  for (const rule of new Set(kinds.flatMap((kind) => included[kind] ?? []))) rules.push({ include: `#${rule}` });
  for (const { match, name } of formsOf(kinds.filter((kind) => kind !== 'length')))
    rules.push({ match: BEFORE + match + AFTER, name: scope(name) });
  rules.push({ include: '#bar' }, { include: '#mark' });
  return rules;
}

const isWord = (word: string): boolean => /^[a-z-]+$/.test(word);

const wordRule = (words: readonly string[], name: string): readonly Rule[] =>
  words.length === 0
    ? []
    : [{ match: `${BEFORE}(?:${[...new Set(words)].map(literal).join('|')})${AFTER}`, name: scope(name) }];

const formsOf = (kinds: readonly SlotKind[]): typeof forms =>
  forms.filter((form) => form.kinds.some((kind) => kinds.includes(kind)));

/** The words behind a chord are told from those that only join a sentence. */
const wordScope = (chords: boolean): string => (chords ? 'storage.modifier.chord' : 'keyword.operator.word');

/** The words of which one is chosen: `small`, `medium`, `large`. */
function choicesOf(pattern: Pattern): readonly string[] {
  if (pattern.is === 'choice') return pattern.words;
  if ('of' in pattern)
    return Array.isArray(pattern.of) ? pattern.of.flatMap(choicesOf) : choicesOf(pattern.of as Pattern);
  return [];
}

/**
 * `at 8`, `in E minor`, `bars 1 to 4`: wherever the table has a word with what belongs behind it, as one rule. The slots that
 * such rules colour are added to `taken`.
 */
function groupsOf(pattern: Pattern, chords: boolean, taken: Set<Pattern>): readonly Rule[] {
  switch (pattern.is) {
    case 'sequence': {
      const row = flat(pattern);
      const first = row.findIndex((one) => one.is === 'word');
      const own =
        row[1]?.is === 'mark' ? labelRule(row[0]) : first < 0 ? [] : groupRule(row.slice(first), chords, taken);
      return [...own, ...pattern.of.flatMap((one) => groupsOf(one, chords, taken))];
    }
    case 'optional':
    case 'group':
    case 'repeat':
      return groupsOf(pattern.of, chords, taken);
    case 'either':
    case 'anyOrder':
      return pattern.of.flatMap((one) => groupsOf(one, chords, taken));
    default:
      return [];
  }
}

/** `2:` in a melody: a word that its colon tells from others of the same form. */
function labelRule(slot: Pattern): readonly Rule[] {
  const [form] = slot.is === 'slot' ? formsOf([slot.kind]) : [];
  return form ? [{ match: `${BEFORE}${form.match}(?=\\s*:)`, name: scope(form.name) }] : [];
}

/** The rule for a word and the words and slots behind it, as far as one expression tells them; none for a word alone. */
function groupRule(row: readonly Pattern[], chords: boolean, taken: Set<Pattern>): readonly Rule[] {
  const found: Expression[] = [];
  for (const one of row) {
    const expression = expressionOf(one, found.length + 1, wordScope(chords));
    if (!expression) break;
    found.push(expression);
  }
  const slots = found.flatMap((one) => one.slots);
  if (slots.length === 0) return [];
  for (const slot of slots) taken.add(slot);
  const match = BEFORE + found.map((one) => one.match).join('\\s+') + AFTER;
  return [{ match, captures: Object.fromEntries(found.map((one, i) => [i + 1, one.capture])) }];
}

interface Expression {
  /** With one pair of capturing brackets, around all of it. */
  readonly match: string;
  readonly capture: Rule;
  readonly slots: readonly Pattern[];
}

function expressionOf(pattern: Pattern, number: number, word: string): Expression | undefined {
  if (pattern.is === 'word') {
    const name = isWord(pattern.word) ? word : 'keyword.operator.sign';
    return { match: `(${literal(pattern.word)})`, capture: named(name), slots: [] };
  }
  const often = pattern.is === 'repeat' && !pattern.between;
  const one = often ? pattern.of : pattern;
  const slots = one.is === 'either' ? one.of : [one];
  const kinds = slots.flatMap((slot) => (slot.is === 'slot' && !included[slot.kind] ? [slot.kind] : []));
  if (number === 1 || kinds.length < slots.length) return undefined;
  const found = formsOf(kinds);
  const any = `(?:${found.map((form) => form.match + AFTER).join('|')})`;
  const patterns = found.map((form) => ({ match: BEFORE + form.match + AFTER, name: scope(form.name) }));
  return { match: often ? `(${any}(?:\\s+${any})*)` : `(${any})`, capture: { patterns }, slots };
}

/** The row of a sequence with the sequences inside it laid flat. */
const flat = (pattern: Pattern): readonly Pattern[] =>
  pattern.is === 'sequence' ? pattern.of.flatMap(flat) : [pattern];

const literal = (word: string): string => word.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
