/** What is asked of a lesson as a whole, on the wire: its summary, its exports, its other keys. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import type { TextDocumentEdit } from 'vscode-languageserver/node';
import { analyze } from '../../server/src/analyze.ts';
import { USUAL_SHEET_WIDTH } from '../../server/src/draw/sheet.ts';
import { USUAL_WIDTH } from '../../server/src/draw/text-tab.ts';
import { lessonJson } from '../../server/src/export/json.ts';
import { soundingOf } from '../../server/src/export/sounding.ts';
import { lessonSvg } from '../../server/src/export/svg.ts';
import { lessonText } from '../../server/src/export/text.ts';
import { wavOf } from '../../server/src/export/wav.ts';
import {
  COLOURS_OF_KEY,
  EXPORT_FORMATS,
  EXPORT_LESSON,
  LIST_KEYS,
  SUMMARISE,
  TAKE_TO_KEY,
  type ChordChanged,
  type KeyChoices,
  type LessonExported,
  type LessonSummary,
} from '../../server/src/protocol.ts';
import { LanguageClient } from '../support/language-client.ts';

const URI = 'file:///lessons/harbour-lamps.lesson';
const TEXT = readFileSync('samples/harbour-lamps.lesson', 'utf8');
const about = { textDocument: { uri: URI } };

describe('a lesson as a whole', () => {
  let client: LanguageClient;
  beforeEach(async () => {
    ({ client } = await LanguageClient.start());
    client.open(URI, TEXT);
  });
  afterEach(() => client.stop());

  describe('its summary', () => {
    it('says how hard and how long it is', async () => {
      const summary = await client.ask<LessonSummary>(SUMMARISE, about);
      assert.equal(summary.title, 'Harbour lamps');
      assert.equal(summary.minutes, 15);
      assert.equal(summary.bars, 8);
      // Eight bars of three quarters at 84: 24 × 60 / 84 = 17.1 seconds.
      assert.equal(summary.sounds, '17 seconds');
      assert.match(summary.difficulty?.ofTen ?? '', /^\d\.\d$/);
      assert.deepEqual(summary.facts.slice(0, 3), ['G major', '3/4', 'quarter = 84']);
      assert.deepEqual(summary.variants, [{ name: 'gentle', title: 'Gentler, sounding in B flat' }]);
    });
    it('follows the text', async () => {
      const line = TEXT.split('\n').findIndex((one) => one.includes('minutes 15'));
      client.change(URI, { range: { start: { line, character: 0 }, end: { line: line + 1, character: 0 } }, text: '' });
      const summary = await client.ask<LessonSummary>(SUMMARISE, about);
      assert.equal(summary.minutes, undefined);
    });
    it('is nothing for a lesson that is not open, and little for one without music', async () => {
      assert.equal(await client.ask(SUMMARISE, { textDocument: { uri: 'file:///none.lesson' } }), null);
      client.open('untitled:one', '');
      const summary = await client.ask<LessonSummary>(SUMMARISE, { textDocument: { uri: 'untitled:one' } });
      assert.deepEqual([summary.title, summary.bars, summary.difficulty], ['', 0, undefined]);
    });
  });

  describe('its export', () => {
    const exported = (to: string, variant?: string): Promise<LessonExported> =>
      client.ask(EXPORT_LESSON, { ...about, to, ...(variant !== undefined && { variant }) });

    it('is the text, the drawing and the data of the lesson', async () => {
      const analysis = analyze(TEXT);
      const files = {
        tab: lessonText(analysis, { width: USUAL_WIDTH, notes: false }),
        svg: lessonSvg(analysis, USUAL_SHEET_WIDTH),
        json: lessonJson(analysis),
      };
      const known = EXPORT_FORMATS.map(({ format }) => format).filter((format) => format !== 'wav');
      assert.deepEqual([...known].sort(), Object.keys(files).sort());
      for (const format of known) {
        const { text, says } = await exported(format);
        // Not compared as texts, whose difference would be a screenful.
        assert.ok(text === files[format as keyof typeof files], format);
        assert.equal(says, undefined);
      }
    });
    it('is as sound the same file, in parts', async () => {
      const { parts } = await exported('wav');
      const bytes = Buffer.concat((parts ?? []).map((part) => Buffer.from(part, 'base64')));
      const file = wavOf(soundingOf(analyze(TEXT), {}), { countIn: false, click: false });
      assert.ok(bytes.equals(file));
    });
    it('is of a variant where one is named, and tells of one that is gone', async () => {
      assert.match((await exported('tab', 'gentle')).text ?? '', /capo 3/);
      assert.match((await exported('tab', 'wild')).says ?? '', /no such variant/);
    });
    it('says where parts may be missing, and where there is nothing to hear', async () => {
      client.change(URI, { text: 'key H major\nprogression path\n  G | C\n' });
      assert.match((await exported('tab')).says ?? '', /has errors/);
      const silent = await exported('wav');
      assert.match(silent.says ?? '', /nothing to hear/);
      assert.equal(silent.parts, undefined);
    });
  });

  describe('its other keys', () => {
    it('are told, each with what its open strings win and lose, and are taken in one edit', async () => {
      const { version, choices } = await client.ask<KeyChoices>(LIST_KEYS, about);
      const choice = choices.findIndex(({ title }) => title === 'Transpose to A major');
      assert.ok(choice >= 0, choices.map(({ title }) => title).join('\n'));
      // The open G string is the eleventh over D in G major; over E, which takes its place in A major, it would be a minor third.
      const colours = await client.ask<string>(COLOURS_OF_KEY, { ...about, version, choice });
      assert.match(colours, /loses [^;]*11 over D/);
      const { says, edit } = await client.ask<ChordChanged>(TAKE_TO_KEY, { ...about, version, choice });
      assert.equal(says, 'Transpose to A major');
      const [change] = (edit as { documentChanges: TextDocumentEdit[] }).documentChanges;
      assert.equal(change.textDocument.version, version);
      assert.ok(change.edits.some((one) => 'newText' in one && one.newText.startsWith('A')));
    });
    it('keep the colours where the capo alone is moved', async () => {
      const { version, choices } = await client.ask<KeyChoices>(LIST_KEYS, about);
      const choice = choices.findIndex(({ title }) => title === 'Let it sound in A major with the capo on fret 2');
      assert.match(await client.ask<string>(COLOURS_OF_KEY, { ...about, version, choice }), /^no colour changes$/);
    });
    it('are of one version', async () => {
      const { version } = await client.ask<KeyChoices>(LIST_KEYS, about);
      client.type(URI, 0, 0, '\n');
      assert.equal(await client.ask(COLOURS_OF_KEY, { ...about, version, choice: 0 }), null);
      assert.match(
        (await client.ask<ChordChanged>(TAKE_TO_KEY, { ...about, version, choice: 0 })).says,
        /choose again/,
      );
    });
    it('are none for a lesson without music', async () => {
      client.change(URI, { text: 'lesson "Words alone"\n' });
      assert.deepEqual((await client.ask<KeyChoices>(LIST_KEYS, about)).choices, []);
    });
  });
});
