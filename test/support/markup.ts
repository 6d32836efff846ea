/** Reads SVG and HTML as strictly as XML is read, so that a test notices what a forgiving browser would hide. */
import assert from 'node:assert/strict';

const TAG = /<(\/?)([A-Za-z][\w:-]*)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>/y;

/** Fails where an element is not closed, an attribute not quoted, or a sign of markup not escaped. Gives the elements' names. */
export function elementsOf(markup: string): readonly string[] {
  const names: string[] = [];
  const open: string[] = [];
  let at = 0;
  while (at < markup.length) {
    if (markup[at] === '<') {
      TAG.lastIndex = at;
      const tag = TAG.exec(markup);
      assert.ok(tag, `no tag at: ${markup.slice(at, at + 60)}`);
      const [whole, closing, name, attributes, empty] = tag;
      assertReferences(attributes);
      if (closing === '/') assert.equal(open.pop(), name, `closed in the wrong order at: ${markup.slice(at, at + 60)}`);
      else {
        names.push(name);
        if (empty !== '/') open.push(name);
      }
      at += whole.length;
    } else {
      const next = markup.indexOf('<', at);
      const text = markup.slice(at, next < 0 ? undefined : next);
      assert.ok(!text.includes('>'), `a > that is not escaped: ${text}`);
      if (open[open.length - 1] !== 'style') assertReferences(text);
      at += text.length;
    }
  }
  assert.deepEqual(open, [], 'elements that were never closed');
  return names;
}

const assertReferences = (text: string): void =>
  assert.doesNotMatch(text, /&(?!(?:amp|lt|gt|quot|#39);)/, 'an & that is not escaped');
