/**
 * Reads Markdown and writes it as HTML: the only place where a lesson's prose becomes markup. HTML in it is text, pictures are
 * their description, links lead only where a reader may safely go, and a fact is filled in as text whatever it says.
 */
import MarkdownIt, { type Token } from 'markdown-it';
import type { FilledFact, FilledProse } from './filled.ts';

export interface HtmlOptions {
  /** The address of another lesson, given by its path as written; undefined where it cannot be opened, so that its name is text. */
  readonly lessonAddress?: (path: string) => string | undefined;
}

/** What a prose is read into. */
export interface ReadProse {
  readonly tokens: readonly Token[];
  /** The text of a token with its facts filled in, cut where a fact begins or ends. */
  readonly cut: (content: string) => readonly Cut[];
}

export interface Cut {
  readonly text: string;
  /** `unfilled`: the lesson has no such fact, and the text is what stands in the braces. */
  readonly is: 'words' | 'filled' | 'unfilled';
}

/** Signs of the private area of Unicode that stand for a fact while Markdown is read: letters to it, and to nobody else. */
const OPEN = '\ue000';
const CLOSE = '\ue001';
const PLACE = /\ue000(\d+)\ue001/;
/** What they become in an address. */
const IN_ADDRESS = /%EE%80%8[01]/i;

/** Signs that neither XML nor a terminal takes, and our own; line ends and tabs stay. */
const FOREIGN = /[^\P{Control}\t\n]|[\ufffe\uffff\ue000\ue001]|\p{Surrogate}/gu;

const cleaned = (text: string): string => text.replace(FOREIGN, '\ufffd');

const ABSOLUTE = /^(?:https?:\/\/[^/?#]|mailto:[^?])/i;
/** A path beside the lesson: no scheme, no host, no root. */
const LESSON_PATH = /^(?![/\\])[^:?#\\]+\.lesson$/i;

type Reader = InstanceType<typeof MarkdownIt>;

let reader: Reader | undefined;

/** Built on first need: it is dearer than a page of prose. */
function markdownReader(): Reader {
  if (reader) return reader;
  reader = new MarkdownIt({ html: false, linkify: false, typographer: false, xhtmlOut: true });
  reader.validateLink = (address: string) =>
    !IN_ADDRESS.test(address) && (ABSOLUTE.test(address) || LESSON_PATH.test(address));
  return reader;
}

/** An attribute that Markdown gave; empty where it gave none. */
export const attribute = (token: Token, name: string): string => `${token.attrGet(name) ?? ''}`;

export const isLessonPath = (address: string): boolean => LESSON_PATH.test(address);

export function readMarkdown({ text, facts }: FilledProse): ReadProse {
  let source = '';
  let at = 0;
  text.braces.forEach((brace, index) => {
    source += plain(text.markdown.slice(at, brace.start)) + OPEN + index + CLOSE;
    at = brace.end;
  });
  source += plain(text.markdown.slice(at));
  return { tokens: markdownReader().parse(source, {}), cut: (content) => cutAtFacts(content, facts) };
}

/** Without the backslashes that make a brace plain, so that it is one inside code as well. */
const plain = (markdown: string): string =>
  cleaned(markdown).replace(/\\([\s\S])/g, (whole, sign: string) => (sign === '{' || sign === '}' ? sign : whole));

function cutAtFacts(content: string, facts: readonly FilledFact[]): readonly Cut[] {
  return content.split(PLACE).flatMap((part, index): Cut | readonly never[] => {
    if (index % 2 === 0) return part === '' ? [] : { text: part, is: 'words' };
    const fact = facts[Number(part)];
    if (fact?.value !== undefined) return { text: cleaned(fact.value), is: 'filled' };
    return { text: cleaned(`{${fact?.path ?? ''}}`), is: 'unfilled' };
  });
}

const SIGNS: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

const escaped = (text: string): string => text.replace(/[&<>"']/g, (sign) => SIGNS[sign]);

/** Well formed as XML too. Headings begin at the second level, for the first is the lesson's own title. */
export function proseHtml(filled: FilledProse, options: HtmlOptions = {}): string {
  const read = readMarkdown(filled);
  return new HtmlWriter(read, options).blocks(read.tokens);
}

/** Elements that are written as Markdown has them, without any attribute. */
const PLAIN_ELEMENTS: ReadonlySet<string> = new Set('p blockquote ul li table thead tbody tr em strong s'.split(' '));

class HtmlWriter {
  /** What closes each open link. */
  private readonly links: string[] = [];

  constructor(
    private readonly read: ReadProse,
    private readonly options: HtmlOptions,
  ) {}

  blocks(tokens: readonly Token[]): string {
    return tokens.map((token) => this.token(token)).join('');
  }

  private token(token: Token): string {
    switch (token.type) {
      case 'inline':
        return this.blocks(token.children ?? []);
      case 'text':
      case 'text_special':
        return this.filled(token.content);
      case 'code_inline':
        return `<code>${this.filled(token.content)}</code>`;
      case 'code_block':
      case 'fence':
        return `<pre><code>${this.filled(token.content)}</code></pre>\n`;
      case 'softbreak':
        return '\n';
      case 'hardbreak':
        return '<br />\n';
      case 'hr':
        return '<hr />\n';
      case 'image':
        return `<span class="picture">${this.filled(wordsOf(token.children ?? []))}</span>`;
      case 'link_open':
        return this.link(token);
      case 'link_close':
        return this.links.pop() ?? '';
      case 'heading_open':
      case 'heading_close': {
        const level = Math.max(2, Number(token.tag.slice(1)));
        return token.nesting > 0 ? `<h${level}>` : `</h${level}>\n`;
      }
      case 'ordered_list_open': {
        const start = Number(attribute(token, 'start') || 1);
        return start === 1 ? '<ol>\n' : `<ol start="${start}">\n`;
      }
      case 'ordered_list_close':
        return '</ol>\n';
      case 'th_open':
      case 'td_open':
        return `<${token.tag}${sideOf(token)}>`;
      case 'th_close':
      case 'td_close':
        return `</${token.tag}>`;
      default:
        return this.element(token);
    }
  }

  /** Whatever is not known here is left out: a new kind of token must be thought about before it is shown. */
  private element({ tag, nesting, hidden, block }: Token): string {
    if (hidden || !PLAIN_ELEMENTS.has(tag)) return '';
    return nesting > 0 ? `<${tag}>` : `</${tag}>${block ? '\n' : ''}`;
  }

  private link(token: Token): string {
    const address = attribute(token, 'href');
    const to = isLessonPath(address) ? this.options.lessonAddress?.(address) : address;
    const title = this.words(attribute(token, 'title'));
    const says = title === '' ? '' : ` title="${escaped(title)}"`;
    if (to === undefined) {
      this.links.push('</span>');
      return `<span class="lesson-name"${says}>`;
    }
    this.links.push('</a>');
    const away = isLessonPath(address) ? '' : ' target="_blank" rel="noopener noreferrer"';
    return `<a href="${escaped(to)}"${says}${away}>`;
  }

  private filled(content: string): string {
    return this.read
      .cut(content)
      .map(({ text, is }) => (is === 'words' ? escaped(text) : `<span class="${is}">${escaped(text)}</span>`))
      .join('');
  }

  private words(content: string): string {
    return this.read
      .cut(content)
      .map(({ text }) => text)
      .join('');
  }
}

/** What a picture is said to show. */
export const wordsOf = (tokens: readonly Token[]): string =>
  tokens
    .map((token) => (token.children ? wordsOf(token.children) : token.type === 'softbreak' ? ' ' : token.content))
    .join('');

/** The side of a table's column as a class, since pages forbid styles that stand in elements. */
function sideOf(token: Token): string {
  const side = /text-align:(center|right)/.exec(attribute(token, 'style'))?.[1];
  return side === undefined ? '' : ` class="${side}"`;
}
