/** Semantic tokens: each word with what it is behind it, and beside what the grammar makes of it. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { semanticTokensIn, type SemanticToken } from '../../server/src/features/semantic-tokens.ts';
import { wordsOfStatement } from '../../server/src/features/semantic-words.ts';
import { readDocument, type StatementCache } from '../../server/src/syntax/document.ts';
import { statements } from '../../server/src/syntax/statements.ts';
import { dedented } from '../support/check-features.ts';
import { tokensOf } from '../support/tokens.ts';

const allIn = (text: string): readonly SemanticToken[] =>
  semanticTokensIn(analyze(text), { start: 0, end: text.length });

const samples = readdirSync('samples').filter((name) => name.endsWith('.lesson'));
/** Pieces that are taken out of each sample, one after another. */
const CUTS = 6;

/** `word[type]`, with `!` for a name that is given and `*` for one that is built in. */
function coloured(text: string): string {
  let shown = text;
  for (const { end, type, modifier } of [...allIn(text)].reverse()) {
    const mark = modifier === 'declaration' ? '!' : modifier === 'defaultLibrary' ? '*' : '';
    shown = `${shown.slice(0, end)}[${type}${mark}]${shown.slice(end)}`;
  }
  return shown;
}

const check = (text: string, expected: string): void => assert.equal(coloured(dedented(text)), dedented(expected));

describe('semantic tokens', () => {
  it('tell names that lead somewhere from those that do not', () => {
    check(
      `
        shape lamp
          strings 4 2 1
        progression quay in G major
          D at 9 as lamp over F# held | V7/V / % N.C.
        section verse "The quay"
          progression quay bars 1 to 2
          shape lamp
          shape open-chords at bar 2
          cell ripple
        form verse verse coda
      `,
      `
        shape[keyword] lamp[function!]
          strings[keyword] 4[number] 2[number] 1[number]
        progression[keyword] quay[function!] in[operator] G[enumMember] major[enumMember]
          D[type] at[modifier] 9[number] as[modifier] lamp[function] over[modifier] F#[enumMember] held[modifier] | V7/V[type] /[operator] %[operator] N.C.[operator]
        section[keyword] verse[function!] "The quay"[string]
          progression[keyword] quay[function] bars[operator] 1[number] to[operator] 2[number]
          shape[keyword] lamp[function]
          shape[keyword] open-chords[function*] at[operator] bar[operator] 2[number]
          cell[keyword] ripple[variable]
        form[keyword] verse[function] verse[function] coda[variable]
      `,
    );
  });

  it('take the signs of a hand, a contour and a tab apart', () => {
    check(
      `
        cell ripple
          each 1/8
          p6+a(top)> i3 1/4 - triplet(m2 r down(4 to 1))
        contour swell on top
          from 5 or R: 0 +1# b3 R -
          with a
        melody m on 1
          7 1/4 h8 (5) 2: x
        tab t
          chords Am | G/B
          1 | 7b9r7 <12> ...
          pluck p+a -
          fingers 3+1 -
          palm * -
      `,
      `
        cell[keyword] ripple[function!]
          each[keyword] 1/8[number]
          p[parameter]6[number]+[operator]a[parameter](top[variable])>[operator] i[parameter]3[number] 1/4[number] -[operator] triplet[operator](m[parameter]2[number] r[operator] down[function](4[number] to[operator] 1[number]))
        contour[keyword] swell[function!] on[operator] top[enumMember]
          from[keyword] 5[enumMember] or[operator] R[enumMember]: 0[number] +1[number]#[operator] b3[enumMember] R[enumMember] -[operator]
          with[keyword] a[parameter]
        melody[keyword] m[function!] on[operator] 1[number]
          7[number] 1/4[number] h[operator]8[number] ([operator]5[number])[operator] 2[number]: x[operator]
        tab[keyword] t[function!]
          chords[keyword] Am[type] | G/B[type]
          1[number] | 7[number]b[operator]9[number]r[operator]7[number] <[operator]12[number]>[operator] ...[operator]
          pluck[keyword] p[parameter]+[operator]a[parameter] -[operator]
          fingers[keyword] 3[number]+[operator]1[number] -[operator]
          palm[keyword] *[operator] -[operator]
      `,
    );
  });

  it('know facts in prose, remarks, and what is allowed', () => {
    check(
      `
        ; A remark.
        section verse
          times 2 ; allow unused-name
        text
          ## Not {this} \\{verse}
          {verse.2.string4.interval} {lesson.tempo}
        ; Not {verse.1.chord} either.
          {verse.bars}
      `,
      `
        ; A remark.[comment]
        section[keyword] verse[function!]
          times[keyword] 2[number] ;[comment] allow[keyword] unused-name[enumMember]
        text[keyword]
          ## Not {this[variable]} \\{verse}
          {verse[function].2[number].string4[property].interval[property]} {lesson[variable].tempo[property]}
        ; Not {verse.1.chord} either.[comment]
          {verse[function].bars[property]}
      `,
    );
  });

  it('are those of the place that is asked about', () => {
    const text = 'key G major\nmeter 3/4\ntempo 84\n';
    const found = semanticTokensIn(analyze(text), { start: 12, end: 21 });
    assert.deepEqual(
      found.map(({ start, end }) => text.slice(start, end)),
      ['meter', '3/4'],
    );
  });

  it('are in order, none over another, none empty, none over a line end, whatever the text', () => {
    for (const name of samples) {
      const cache: StatementCache = new Map();
      const whole = readFileSync(`samples/${name}`, 'utf8');
      for (let cut = 0; cut < CUTS; cut++) {
        const [from, to] = [cut, cut + 1].map((one) => Math.floor((whole.length * one) / CUTS));
        for (const { tree } of readDocument(whole.slice(0, from) + whole.slice(to), cache).statements) {
          let last = 0;
          for (const { start, end } of wordsOfStatement(tree)) {
            const word = tree.text.slice(start, end);
            assert.ok(start >= last && word.length === end - start && word !== '', `${name}, cut ${cut}: ${word}`);
            assert.ok(!/[\r\n]/.test(word), `${name}, cut ${cut}: ${word}`);
            last = end;
          }
        }
      }
    }
  });
});

/** What a scope of the grammar may be called here. */
const MEANINGS: readonly (readonly [scope: RegExp, types: readonly SemanticToken['type'][]])[] = [
  [/^keyword\.(control|other)/, ['keyword']],
  [/^keyword\.operator/, ['operator']],
  [/^storage\.modifier/, ['modifier']],
  [/^constant\.language/, ['operator']],
  [/^constant\.numeric/, ['number']],
  [/^constant\.other|^support\.constant/, ['enumMember']],
  [/^entity\.name\.type/, ['type']],
  [/^entity\.name\.function/, ['function']],
  [/^variable\.other\.name/, ['function', 'variable']],
  [/^variable\.other\.fact/, ['function', 'variable', 'property']],
  [/^variable\.parameter/, ['parameter']],
  [/^variable\.language/, ['variable']],
  [/^support\.function/, ['function']],
  [/^string/, ['string']],
  [/^comment/, ['comment']],
];

/** Where grammar and tokens differ about a word: `line: word is scope here and type there`. */
async function differences(text: string): Promise<readonly string[]> {
  const tokens = allIn(text);
  const found: string[] = [];
  let start = 0;
  for (const [number, line] of (await tokensOf(text)).entries()) {
    const whole = text.split('\n')[number];
    let at = 0;
    for (const { text: word, scope, scopes } of line) {
      at = whole.indexOf(word, at);
      const place = start + at;
      at += word.length;
      const types = MEANINGS.find(([form]) => form.test(scope))?.[1];
      // Inside a title it is the title that is told.
      if (scopes.some((one) => one.startsWith('string.quoted')) || !types) continue;
      const token = tokens.find((one) => one.start <= place && place < one.end);
      if (!token || !types.includes(token.type))
        found.push(`${number + 1}: ${word} is ${scope} here and ${token?.type ?? 'nothing'} there`);
    }
    start += whole.length + 1;
  }
  return found;
}

describe('semantic tokens and grammar', () => {
  for (const name of samples)
    it(`mean the same by the words of ${name}`, async () => {
      assert.deepEqual(await differences(readFileSync(`samples/${name}`, 'utf8')), []);
    });
  it('mean the same by the words of every example', async () => {
    for (const form of statements) {
      const head = form.example.split('\n')[0];
      const texts = [form.example, ...form.body.map((line) => `${head}\n  ${line.example}`)];
      for (const text of texts) assert.deepEqual(await differences(`${text}\n`), [], text);
    }
  });
});
