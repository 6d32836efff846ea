/** Variants: the same lesson with other settings or parts. Here it is read what each of them changes. */
import type { Key } from '../theory/key.ts';
import type { Span } from '../util/span.ts';
import { PART_KINDS } from '../syntax/statements.ts';
import { groups, leaf, leaves, type Leaf } from '../syntax/tree.ts';
import { builtInShapes } from './built-in-shapes.ts';
import type { Claim } from './claims.ts';
import type { Definition, Lesson } from './lesson.ts';
import type { Scope, Source } from './reader.ts';
import { readKey } from './settings.ts';

/** Of one lesson. */
export const MOST_VARIANTS = 12;
const BUILT_IN_SHAPES = builtInShapes.map((rule) => rule.name);

export type ReplacedKind = (typeof PART_KINDS)[number];

/** `shape bell instead of lamp`. */
export interface Replacement {
  readonly kind: ReplacedKind;
  readonly name: string;
  readonly instead: string;
  /** The whole line. */
  readonly span: Span;
}

export interface VariantDefinition extends Definition {
  readonly kind: 'variant';
  readonly title?: string;
  readonly replaces: readonly Replacement[];
  /** The key that it is moved to, where it names one. */
  readonly key?: Key;
  /** Whether it has a plan of practice of its own, which then takes the place of the lesson's. */
  readonly practises: boolean;
}

/** How a variant is spoken of: by its title, or else by its name. */
export const variantTitle = ({ title, name }: VariantDefinition): string => title ?? name;

/**
 * At most twelve. Read after the sections, whose uses in `scope` tell which parts are played. What its settings, claims and steps
 * say is read where the variant's own lesson is built. Without a known key of the lesson nothing is moved to another.
 */
export function readVariants(
  sources: readonly Source[],
  scope: Scope,
  keyKnown: boolean,
): readonly VariantDefinition[] {
  const played = new Set(scope.uses.map((use) => `${use.kind} ${use.name}`));
  const variants: VariantDefinition[] = [];
  for (const source of sources) {
    const name = leaf(source.tree.head, 'name');
    if (!name) continue;
    const definition = source.definition('variant', name);
    if (variants.length >= MOST_VARIANTS) {
      source.report('too-much', definition.span, { what: 'variants', limit: `${MOST_VARIANTS}` });
      break;
    }
    scope.add(definition);
    noteSections(source, scope);
    const keyLine = source.line('key');
    const key =
      keyLine &&
      keyKnown &&
      readKey(
        keyLine,
        (span) => source.at(span),
        () => {},
      );
    variants.push({
      ...definition,
      kind: 'variant',
      title: leaf(source.tree.head, 'title')?.text,
      replaces: readReplacements(source, scope, played),
      ...(key && { key }),
      practises: source.line('step') !== undefined,
    });
  }
  return variants;
}

/** Sections that its claims and steps name are used; whether they are there is said where the claims and steps are read. */
function noteSections(source: Source, scope: Scope): void {
  for (const line of source.tree.body) {
    if (line.form !== 'claim' && line.form !== 'step') continue;
    for (const node of [line, ...groups(line, 'bar')]) {
      for (const word of leaves(node, 'section')) scope.use('section', word.text, source.at(word), true);
    }
  }
}

function readReplacements(source: Source, scope: Scope, played: ReadonlySet<string>): readonly Replacement[] {
  const replaces: Replacement[] = [];
  for (const line of source.tree.body) {
    const kind = PART_KINDS.find((one) => one === line.form);
    if (!kind) continue;
    const [name, instead] = [leaf(line, 'name'), leaf(line, 'instead')];
    const known = [name, instead].map((word) => word && lookUp(source, scope, kind, word));
    if (!name || !instead || line.broken) continue;
    const before = replaces.some((one) => one.kind === kind && one.instead === instead.text);
    if (before)
      source.report('said-twice', source.at(line), { word: `instead of ${instead.text}`, statement: 'variant' });
    else if (known[1] && (name.text === instead.text || !played.has(`${kind} ${instead.text}`))) {
      const same = name.text === instead.text ? 'yes' : '';
      source.report('nothing-to-replace', source.at(instead), { kind, name: instead.text, same });
    }
    if (!before && known[0]) replaces.push({ kind, name: name.text, instead: instead.text, span: source.at(line) });
  }
  return replaces;
}

/** Whether there is a part of that kind and name; where there is none, it is said. */
function lookUp(source: Source, scope: Scope, kind: ReplacedKind, word: Leaf): boolean {
  const builtIn = kind === 'shape' ? BUILT_IN_SHAPES : [];
  const span = source.at(word);
  const names = (one: ReplacedKind): readonly string[] => scope.names(one, one === 'shape' ? BUILT_IN_SHAPES : []);
  if (names(kind).includes(word.text)) {
    scope.use(kind, word.text, span, true, builtIn);
    return true;
  }
  const other = PART_KINDS.find((one) => names(one).includes(word.text));
  if (other) source.report('part-of-another-kind', span, { kind, other, name: word.text });
  scope.use(kind, word.text, span, other !== undefined, builtIn);
  // A part of a file that has not come yet may well be there.
  return scope.awaited.has('*') || scope.awaited.has(word.text);
}

/**
 * The lesson that was built of a variant's document, with what only the whole of it shows: its title names the variant, and where
 * the variant claims something about the same thing as the lesson, the lesson's claim gives way.
 */
export function variantLesson(built: Lesson, lesson: Lesson, variant: VariantDefinition): Lesson {
  const named = variantTitle(variant);
  const isOwn = ({ span }: Claim): boolean => variant.whole.start <= span.start && span.end <= variant.whole.end;
  const own = new Set(built.claims.filter(isOwn).map((claim) => subjectOf(claim, built)));
  return {
    ...built,
    title: lesson.title === undefined ? named : `${lesson.title}: ${named}`,
    claims: built.claims.filter((claim) => isOwn(claim) || !own.has(subjectOf(claim, built))),
    variants: [],
    // Comments that allow a finding stand in the text as it is.
    allowed: lesson.allowed,
  };
}

/** What a claim speaks of, without what it says of it. */
function subjectOf({ says, section }: Claim, { sections }: Lesson): string {
  const place = section ?? (sections.length === 1 ? 0 : undefined);
  const where = [says.kind, place];
  if ('bar' in says) where.push(says.bar);
  if ('chord' in says) where.push(says.chord);
  if ('string' in says) where.push(says.string);
  return where.join(' ');
}
