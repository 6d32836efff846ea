/** Markdown as HTML: what a teacher may write, and what can never come of it. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { proseHtml, type HtmlOptions } from '../../server/src/prose/markdown.ts';
import type { FilledFact, FilledProse } from '../../server/src/prose/filled.ts';
import { lessonOf } from '../support/describe-lesson.ts';
import { elementsOf } from '../support/markup.ts';

/** The Markdown as the body of a `text`, its facts filled by hand. */
function filled(markdown: string, values: Readonly<Record<string, string>> = {}): FilledProse {
  const indented = markdown
    .split('\n')
    .map((line) => `  ${line}\n`)
    .join('');
  const [prose] = lessonOf(`text\n${indented}`).passages;
  assert.ok(prose?.kind === 'text');
  const facts = prose.facts.map(({ path }): FilledFact => (path in values ? { path, value: values[path] } : { path }));
  return { text: prose.prose, facts };
}

const html = (markdown: string, values?: Readonly<Record<string, string>>, options?: HtmlOptions): string =>
  proseHtml(filled(markdown, values), options).trimEnd();

describe('Markdown in prose', () => {
  it('has paragraphs, emphasis, lists, quotations, code and rules', () => {
    assert.equal(
      html('one\ntwo\n\n*three* **four** ~~five~~'),
      '<p>one\ntwo</p>\n<p><em>three</em> <strong>four</strong> <s>five</s></p>',
    );
    assert.equal(html('- one\n- two'), '<ul><li>one</li>\n<li>two</li>\n</ul>');
    assert.equal(html('3. one'), '<ol start="3">\n<li>one</li>\n</ol>');
    assert.equal(html('> so'), '<blockquote><p>so</p>\n</blockquote>');
    assert.equal(html('`a<b`'), '<p><code>a&lt;b</code></p>');
    assert.equal(html('```lesson\nkey G\n```'), '<pre><code>key G\n</code></pre>');
    assert.equal(html('---'), '<hr />');
  });
  it('has headings below the lesson’s own', () => {
    assert.equal(html('# a\n## b\n### c'), '<h2>a</h2>\n<h2>b</h2>\n<h3>c</h3>');
  });
  it('has tables, their sides as classes', () => {
    assert.equal(
      html('| a | b |\n|--:|---|\n| 1 | 2 |'),
      '<table><thead><tr><th class="right">a</th><th>b</th></tr>\n</thead>\n<tbody><tr><td class="right">1</td><td>2</td></tr>\n</tbody>\n</table>',
    );
  });
});

describe('links in prose', () => {
  it('lead to pages and letters, in a window of their own', () => {
    const attributes = 'target="_blank" rel="noopener noreferrer"';
    assert.equal(html('[a](https://example.org/b)'), `<p><a href="https://example.org/b" ${attributes}>a</a></p>`);
    assert.equal(
      html('<mailto:a@example.org>'),
      `<p><a href="mailto:a@example.org" ${attributes}>mailto:a@example.org</a></p>`,
    );
  });
  it('lead to a lesson beside this one where somebody can open it, and are its name otherwise', () => {
    assert.equal(html('[next](../b/next.lesson)'), '<p><span class="lesson-name">next</span></p>');
    const options: HtmlOptions = { lessonAddress: (path) => path.replace('.lesson', '.html') };
    assert.equal(html('[next](../b/next.lesson)', {}, options), '<p><a href="../b/next.html">next</a></p>');
  });
  it('are text where they lead anywhere else', () => {
    for (const address of [
      'javascript:alert(1)',
      'JaVaScRiPt:alert(1)',
      '&#106;avascript:alert(1)',
      'java&#10;script:alert(1)',
      'command:workbench.action.quit',
      'vscode://file/a',
      'data:text/html,a',
      'file:///etc/a',
      'vbscript:a',
      '//example.org/a.lesson',
      '/etc/a.lesson',
      '\\\\host\\a.lesson',
      'a.html',
      '#a',
      'https:a',
      'https:///a',
    ]) {
      for (const markdown of [`[a](${address})`, `[a](<${address}>)`, `<${address}>`, `[a]\n\n[a]: ${address}`])
        assert.doesNotMatch(html(markdown), /<a /, markdown);
    }
  });
});

describe('what Markdown cannot do in prose', () => {
  it('write elements of its own', () => {
    assert.equal(html('<b onclick="a">x</b>'), '<p>&lt;b onclick=&quot;a&quot;&gt;x&lt;/b&gt;</p>');
    assert.equal(html('<script>\nalert(1)\n</script>'), '<p>&lt;script&gt;\nalert(1)\n&lt;/script&gt;</p>');
    assert.equal(html('<!-- x -->'), '<p>&lt;!-- x --&gt;</p>');
  });
  it('load a picture: its description stands there', () => {
    assert.equal(
      html('![a *low* lamp](https://example.org/a.png "b")'),
      '<p><span class="picture">a low lamp</span></p>',
    );
  });
});

describe('facts in prose', () => {
  const fact = (value: string): string => `<span class="filled">${value}</span>`;
  it('are filled in wherever words may stand', () => {
    const values = { a: 'Dadd11/F#' };
    assert.equal(
      html('**{a}**, `{a}`', values),
      `<p><strong>${fact(values.a)}</strong>, <code>${fact(values.a)}</code></p>`,
    );
    assert.equal(html('## {a}', values), `<h2>${fact(values.a)}</h2>`);
    assert.equal(html('    {a}', values), `<p>${fact(values.a)}</p>`);
    assert.equal(html('![{a}](https://example.org)', values), `<p><span class="picture">${fact(values.a)}</span></p>`);
  });
  it('are text whatever they say', () => {
    const values = { a: '*x* [y](command:z) <b>"&\'`{a}' };
    const text = '*x* [y](command:z) &lt;b&gt;&quot;&amp;&#39;`{a}';
    assert.equal(html('{a}', values), `<p>${fact(text)}</p>`);
    assert.equal(html('- {a}', { a: '- b' }), `<ul><li>${fact('- b')}</li>\n</ul>`);
    assert.equal(
      html('[b](https://example.org "{a}")', { a: '" onclick="x' }),
      '<p><a href="https://example.org" title="&quot; onclick=&quot;x" target="_blank" rel="noopener noreferrer">b</a></p>',
    );
  });
  it('never lead anywhere', () => {
    for (const markdown of ['[b]({a})', '[b](https://example.org/{a})', '<https://example.org/{a}>', '[b]\n\n[b]: {a}'])
      assert.doesNotMatch(html(markdown, { a: 'javascript:alert(1)' }), /<a /, markdown);
  });
  it('stay as they are written where the lesson has none', () => {
    assert.equal(html('{<b>}'), '<p><span class="unfilled">{&lt;b&gt;}</span></p>');
  });
  it('are no facts behind a backslash, in code neither', () => {
    assert.equal(html('\\{a} `\\{a}` \\\\{a}', { a: 'G' }), `<p>{a} <code>{a}</code> \\${fact('G')}</p>`);
  });
  it('cannot be made by the signs that stand for them meanwhile', () => {
    assert.equal(html('\ue0000\ue001 {a}', { a: 'G' }), `<p>\ufffd0\ufffd ${fact('G')}</p>`);
  });
});

describe('any prose at all', () => {
  const SIGNS = '*_`~[]()<>!{}\\|#-+=:;"&\'/ \n\t';
  const word = fc.constantFrom(
    'a',
    'javascript:',
    'https://a.org',
    'b.lesson',
    '{x}',
    '<script>',
    '![',
    '](',
    '\ue000',
    ...SIGNS,
  );
  it('gives well-formed elements of the few kinds that are allowed', () => {
    const allowed = new Set(
      'h2 h3 h4 h5 h6 p ul ol li blockquote pre code em strong s a span br hr table thead tbody tr th td'.split(' '),
    );
    fc.assert(
      fc.property(fc.array(word, { maxLength: 60 }), (words) => {
        const written = html(words.join(''), { x: '</p><b>' });
        for (const element of elementsOf(written)) assert.ok(allowed.has(element), element);
        for (const [, address] of written.matchAll(/href="([^"]*)"/g))
          assert.match(address, /^(?:https?:\/\/|mailto:)/);
      }),
      { numRuns: 400, seed: 11 },
    );
  });
});
