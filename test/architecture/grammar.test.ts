import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { wordsOf, match, type Pattern } from '../../server/src/syntax/patterns.ts';
import { statements } from '../../server/src/syntax/statements.ts';
import { textmateGrammar } from '../../server/src/syntax/textmate.ts';
import { cutWords } from '../../server/src/syntax/words.ts';
import { tokensOf, type Token } from '../support/tokens.ts';

const KEYWORD = /^(keyword\.|storage\.modifier|support\.constant\.choice|constant\.other\.tone)/;

/** The words of an example that the table calls keywords: what it reads less what fills its slots. */
function keywordsIn(example: string, pattern: Pattern, keyword: string | undefined): readonly string[] {
  const { words } = cutWords(example.split('\n')[0], 0);
  const own = new Set(wordsOf(pattern));
  const found = match(pattern, words, keyword ? 1 : 0);
  assert.equal(found.read, words.length);
  return words
    .filter((word, i) => word.kind === 'word' && ((keyword && i === 0) || own.has(word.text)))
    .map((word) => (word.text === 'triplet(' ? 'triplet' : word.text))
    .filter((word) => word !== ')');
}

const scopeOf = (tokens: readonly Token[], word: string): string =>
  tokens.find((token) => token.text === word && KEYWORD.test(token.scope))?.scope ?? 'none';

describe('grammar and table of statements', () => {
  it('the grammar file is what the table gives now (to renew it: node .scripts/write-grammar.mjs)', () => {
    const file: unknown = JSON.parse(readFileSync('syntaxes/stringcourse.tmLanguage.json', 'utf8'));
    assert.deepEqual(file, JSON.parse(JSON.stringify(textmateGrammar())));
  });
  it('colours every keyword of every line where it stands', async () => {
    for (const form of statements) {
      const lines = await tokensOf(form.example);
      for (const word of keywordsIn(form.example, form.head, form.keyword))
        assert.match(scopeOf(lines[0], word), KEYWORD, `${word} in ${form.example}`);
      for (const line of form.body) {
        const [, tokens] = await tokensOf(`${form.example.split('\n')[0]}\n  ${line.example}`);
        for (const word of keywordsIn(line.example, line.pattern, line.keyword))
          assert.match(scopeOf(tokens, word), KEYWORD, `${word} in ${form.keyword}: ${line.example}`);
      }
    }
  });
  it('has a rule for every keyword of the table and for no other word', () => {
    const said = new Set(statements.flatMap((form) => [form.keyword, ...wordsOf(form.head)]));
    for (const line of statements.flatMap((form) => form.body)) {
      if (line.keyword) said.add(line.keyword);
      for (const word of wordsOf(line.pattern)) said.add(word);
    }
    // A triplet's brackets are punctuation, and `allow` stands in comments alone.
    said.delete('triplet(');
    said.delete(')');
    const expected = [...said.add('triplet').add('allow')].sort();
    assert.deepEqual([...keywordsOfGrammar()].sort(), expected);
  });
  it('leaves no word of any example without a colour', async () => {
    for (const form of statements) {
      const head = form.example.split('\n')[0];
      const texts = form.prose ? [head] : [form.example, ...form.body.map((line) => `${head}\n  ${line.example}`)];
      for (const text of texts) {
        assert.deepEqual(plainOf((await tokensOf(text)).flat()), [], text);
      }
    }
  });
  it('leaves no word of the reference’s examples and signs without a colour', async () => {
    const page = readFileSync('server/REFERENCE.md', 'utf8');
    const examples = [...page.matchAll(/^```lesson\n(.*?)\n```$/gms)].map(([, text]) => text);
    assert.equal(examples.length, statements.length);
    for (const text of examples) {
      const prose = /^(text|note)$/m.exec(text);
      // Prose has the colours of Markdown.
      const tokens = (await tokensOf(prose ? text.split('\n')[0] : text)).flat();
      assert.deepEqual(plainOf(tokens), [], text);
    }
    const [, table] = /^\| sign \| what it is \|\n(.*?)\n\n/ms.exec(page)!;
    const cells = table
      .split('\n')
      .slice(1)
      .map((row) => row.slice(2).split(/ \| (?=[^`])/)[0]);
    const signs = cells.flatMap((cell) => [...cell.matchAll(/`([^`]+)`/g)].map(([, sign]) => sign));
    assert.ok(signs.length >= 20, 'the table of signs is found');
    for (const sign of signs) {
      const row = sign.startsWith('palm') ? `  ${sign}` : `  1 | 5 ${sign} |`;
      assert.deepEqual(plainOf((await tokensOf(`tab coda\n${row}`)).flat()), [], sign);
    }
  });
  it('loses no colour of other lines over a word that is spelt wrongly, or a bracket or quote that is never closed', async () => {
    for (const form of statements.filter(({ prose }) => !prose)) {
      const [head, ...rest] = form.example.split('\n');
      const lines = form.body.length > 0 ? [head, ...rest, ...form.body.map(({ example }) => `  ${example}`)] : [head];
      const text = [...lines, 'key G major'];
      const whole = await tokensOf(text.join('\n'));
      for (const slip of ['wibble', 'C7(b9', 'triplet(', '"Lamps', '}{', '\\']) {
        for (const at of lines.keys()) {
          const broken = await tokensOf(text.map((line, i) => (i === at ? `${line} ${slip}` : line)).join('\n'));
          const others = (all: typeof whole): typeof whole => all.filter((_, i) => i !== at);
          assert.deepEqual(others(broken), others(whole), `${slip} behind ${lines[at]}`);
        }
      }
    }
  });
});

const plainOf = (tokens: readonly Token[]): readonly string[] =>
  tokens.filter((token) => token.scope === '').map((token) => token.text);

/** The words that the file itself matches as keywords, read out of its expressions. */
function keywordsOfGrammar(): ReadonlySet<string> {
  const words = new Set<string>();
  const add = (expression: string): void => {
    for (const word of expression.split('|')) words.add(word.replace(/\\(.)/g, '$1'));
  };
  const visit = (rule: unknown): void => {
    if (typeof rule !== 'object' || rule === null) return;
    const {
      begin,
      match: matched,
      name,
      captures,
      beginCaptures,
      patterns,
      repository,
    } = rule as Record<string, unknown>;
    if (typeof matched === 'string' && typeof name === 'string' && KEYWORD.test(name)) {
      const list = /^\(\?<!\[\^\\s\|,:\(\]\)\(\?:((?:[a-z%=/.NC|-]|\\.)+)\)/.exec(matched);
      if (list) add(list[1]);
    }
    for (const [expression, scopes] of [
      [begin, beginCaptures],
      [matched, captures],
    ]) {
      if (typeof expression !== 'string' || typeof scopes !== 'object' || scopes === null) continue;
      const groups = [...expression.matchAll(/\((?!\?)((?:[^()\\]|\\.)*)\)/g)].map((found) => found[1]);
      for (const group of groups) if (/^(?:[a-z=-]|\\[/.%])+$/.test(group) && group.length > 1) add(group);
    }
    if (Array.isArray(patterns)) patterns.forEach(visit);
    if (typeof repository === 'object' && repository !== null) Object.values(repository).forEach(visit);
  };
  visit(JSON.parse(readFileSync('syntaxes/stringcourse.tmLanguage.json', 'utf8')));
  return words;
}
