/** The settings that the language server reads, by their full names, with their defaults. */
import { DEFAULTS, SECTION } from '../../server/src/lsp/settings.ts';

export const serverSettings = (): ReadonlyMap<string, unknown> => new Map(flat(SECTION, DEFAULTS));

/** A setting whose default is an empty object is one that holds a table. */
const flat = (name: string, value: unknown): readonly (readonly [string, unknown])[] =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && Object.keys(value).length > 0
    ? Object.entries(value).flatMap(([key, inner]) => flat(`${name}.${key}`, inner))
    : [[name, value]];
