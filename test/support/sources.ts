/** Reads our own sources for the tests of the house: their code without comments and strings, and what they import. */
import { existsSync, readFileSync, readdirSync } from 'node:fs';

export interface Source {
  /** From the repository's root: `server/src/theory/note.ts`. */
  readonly path: string;
  readonly text: string;
}

/** Every TypeScript file below these folders that are there, by path. */
export function sourcesIn(...folders: readonly string[]): readonly Source[] {
  return folders
    .filter((folder) => existsSync(folder))
    .flatMap((folder) => readdirSync(folder, { recursive: true }).map((name) => `${folder}/${String(name)}`))
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => path.endsWith('.ts') && !path.includes('node_modules/'))
    .sort()
    .map((path) => ({ path, text: readFileSync(path, 'utf8') }));
}

export interface Import {
  /** As written: `../util/span.ts`, `node:fs`. */
  readonly from: string;
  readonly onlyTypes: boolean;
}

/** What a source imports or passes on: all forms, types too, which bundlers lose. */
export function importsOf({ text }: Source): readonly Import[] {
  const { code, strings } = withoutWords(text);
  const forms = [
    /\b(?:import|export)\s+(type\s)?[^;'"`]*?\bfrom\s*"(\d+)"/g,
    /\bimport\s+(type\s)?"(\d+)"/g,
    /\bimport\s*\(\s*()"(\d+)"/g,
    /\brequire\s*\(\s*()"(\d+)"/g,
  ];
  return forms.flatMap((form) =>
    [...code.matchAll(form)].map((found) => ({ from: strings[Number(found[2])], onlyTypes: found[1] !== undefined })),
  );
}

/** The code alone, in which comments are blanks, a regular expression is `/ /` and each string is its number in quotes. */
export const codeOf = ({ text }: Source): string => withoutWords(text).code;

interface Bare {
  readonly code: string;
  readonly strings: readonly string[];
}

/** A slash behind one of these begins a regular expression; behind anything else it divides. */
const BEFORE_EXPRESSION = /(?:^|[(,=:[!&|?{};+*<>~^%-]|\breturn|\bcase|\btypeof|=>)\s*$/;

function withoutWords(text: string): Bare {
  const strings: string[] = [];
  let code = '';
  /** For each template that is open, how many braces are open in the code inside it. */
  const templates: number[] = [];
  const quote = (words: string): void => {
    code += `"${strings.length}"`;
    strings.push(words);
  };
  const template = (from: number): number => {
    let at = from;
    while (at < text.length && text[at] !== '`' && !text.startsWith('${', at)) at += text[at] === '\\' ? 2 : 1;
    quote(text.slice(from, at));
    if (text[at] === '$') {
      templates.push(0);
      return at + 2;
    }
    return at + 1;
  };
  for (let at = 0; at < text.length;) {
    const letter = text[at];
    if (text.startsWith('//', at)) {
      const end = text.indexOf('\n', at);
      at = end < 0 ? text.length : end;
    } else if (text.startsWith('/*', at)) {
      code += ' ';
      at = text.indexOf('*/', at) + 2;
    } else if (letter === "'" || letter === '"') {
      let end = at + 1;
      while (end < text.length && text[end] !== letter && text[end] !== '\n') end += text[end] === '\\' ? 2 : 1;
      quote(text.slice(at + 1, end));
      at = end + 1;
    } else if (letter === '`') {
      at = template(at + 1);
    } else if (letter === '}' && templates[templates.length - 1] === 0) {
      templates.pop();
      at = template(at + 1);
    } else if (letter === '/' && BEFORE_EXPRESSION.test(code.slice(-40))) {
      at = endOfExpression(text, at + 1);
      code += '/ /';
    } else {
      if (templates.length > 0 && letter === '{') templates[templates.length - 1]++;
      if (templates.length > 0 && letter === '}') templates[templates.length - 1]--;
      code += letter;
      at++;
    }
  }
  return { code, strings };
}

function endOfExpression(text: string, from: number): number {
  let inClass = false;
  let at = from;
  while (at < text.length && text[at] !== '\n' && (inClass || text[at] !== '/')) {
    if (text[at] === '[') inClass = true;
    if (text[at] === ']') inClass = false;
    at += text[at] === '\\' ? 2 : 1;
  }
  return at + 1;
}
