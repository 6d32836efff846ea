/** Colours a text with the grammar file as the editor does, and shows what came of it. */
import { readFileSync } from 'node:fs';
import oniguruma from 'vscode-oniguruma';
import textmate from 'vscode-textmate';

export interface Token {
  readonly text: string;
  /** The innermost scope without the language's name; empty for what has none of its own. */
  readonly scope: string;
  /** All scopes, the outermost first. */
  readonly scopes: readonly string[];
}

/** Stands in for the editor's own Markdown: headings and paragraphs that keep the lines which look like more of the same. */
const markdown = {
  scopeName: 'text.html.markdown',
  patterns: [
    { match: '(?:^|\\G) {0,3}(#+)\\s+(.*)$', captures: { 2: { name: 'entity.name.section.markdown' } } },
    {
      name: 'meta.paragraph.markdown',
      begin: '(?:^|\\G) {0,3}(?=[^ \\t\\n])',
      while: '(?:^|\\G)(?= {0,3}[^ \\t\\n#])',
      patterns: [{ match: '\\*[^*]*\\*', name: 'markup.italic.markdown' }],
    },
  ],
};

let loading: Promise<textmate.IGrammar> | undefined;

function grammar(): Promise<textmate.IGrammar> {
  loading ??= (async () => {
    const wasm = readFileSync('node_modules/vscode-oniguruma/release/onig.wasm');
    await oniguruma.loadWASM(Uint8Array.from(wasm).buffer);
    const own = readFileSync('syntaxes/stringcourse.tmLanguage.json', 'utf8');
    const registry = new textmate.Registry({
      onigLib: Promise.resolve({
        createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
        createOnigString: (text) => new oniguruma.OnigString(text),
      }),
      loadGrammar: (name) =>
        Promise.resolve(
          name === 'source.stringcourse'
            ? textmate.parseRawGrammar(own, 'stringcourse.json')
            : textmate.parseRawGrammar(JSON.stringify(markdown), 'markdown.json'),
        ),
    });
    const loaded = await registry.loadGrammar('source.stringcourse');
    if (!loaded) throw new Error('The grammar file could not be loaded.');
    return loaded;
  })();
  return loading;
}

/** The tokens of each line, blanks left out. */
export async function tokensOf(text: string): Promise<readonly (readonly Token[])[]> {
  const loaded = await grammar();
  let stack = textmate.INITIAL;
  return text.split('\n').map((line) => {
    const { tokens, ruleStack } = loaded.tokenizeLine(line, stack);
    stack = ruleStack;
    return tokens
      .map(({ startIndex, endIndex, scopes }): Token => {
        const last = scopes[scopes.length - 1];
        return {
          text: line.slice(startIndex, endIndex).trim(),
          scope: scopes.length > 1 && !last.startsWith('meta.prose') ? last.replace(/\.stringcourse$/, '') : '',
          scopes,
        };
      })
      .filter((token) => token.text !== '');
  });
}

/** What the colours mean to a reader; scopes that are not named here are shown as they are. */
const meanings: Readonly<Record<string, string>> = {
  'keyword.control.statement': 'statement',
  'keyword.other.line': 'line',
  'keyword.operator.word': 'word',
  'keyword.operator.sign': 'sign',
  'storage.modifier.chord': 'modifier',
  'entity.name.function': 'new name',
  'variable.other.name': 'name',
  'entity.name.type.chord': 'chord',
  'entity.name.type.numeral': 'numeral',
  'constant.numeric': 'number',
  'constant.numeric.length': 'length',
  'constant.numeric.frets': 'frets',
  'constant.numeric.fret': 'fret',
  'constant.numeric.step': 'step',
  'constant.numeric.date': 'date',
  'constant.other.note': 'note',
  'constant.other.tone': 'tone',
  'support.constant.mode': 'mode',
  'support.constant.tuning': 'tuning',
  'support.constant.choice': 'choice',
  'support.function.stroke': 'stroke',
  'variable.parameter.finger': 'finger',
  'variable.language.string': 'aim',
  'constant.language.hold': 'hold',
  'constant.language.rest': 'rest',
  'constant.language.dead': 'dead',
  'keyword.operator.technique': 'technique',
  'keyword.operator.accent': 'accent',
  'keyword.operator.pinch': 'pinch',
  'keyword.operator.repeat': 'as before',
  'keyword.operator.bent': 'bent',
  'string.quoted.double': 'title',
  'string.unquoted.syllable': 'syllable',
  'comment.line.semicolon': 'comment',
  'keyword.other.allow': 'allow',
  'constant.other.finding': 'finding',
  'constant.numeric.finger': 'fretting finger',
  'meta.paragraph.markdown': 'prose',
  'entity.name.section.markdown': 'heading',
  'markup.italic.markdown': 'italic',
  'variable.other.fact': 'fact',
  'constant.character.escape': 'escape',
};

/** Each line with a colour behind every word that has one: `key[statement] G[note] major[mode]`. Punctuation stays bare. */
export async function coloured(text: string): Promise<string> {
  const lines = await tokensOf(text);
  return lines
    .map((line) =>
      line
        .map(({ text: word, scope }) => {
          if (scope === '' || scope.startsWith('punctuation') || /^["“”]$/.test(word)) return word;
          return `${word}[${meanings[scope] ?? scope}]`;
        })
        .join(' '),
    )
    .join('\n');
}
