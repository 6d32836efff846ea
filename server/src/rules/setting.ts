/** The schema of the editor's setting for the weight of findings: what package.json says of it, from the rules themselves. */
import type { Rule } from './rule.ts';

export const SEVERITY_SETTING = 'stringcourse.severity';

const WEIGHTS: readonly (readonly [string, string])[] = [
  ['error', 'The lesson must not stay so.'],
  ['warning', 'Worth a look before the lesson is handed out.'],
  ['information', 'Worth knowing.'],
  ['hint', 'Marked in the text, and not among the problems.'],
  ['off', 'Not told.'],
];

/** As JSON; `rules` in the order in which their codes are to be offered. */
export const severitySchema = (rules: readonly Rule[]): Readonly<Record<string, unknown>> => ({
  type: 'object',
  default: {},
  scope: 'resource',
  markdownDescription:
    'How much a finding weighs, by its code: `{ "stretch-wide": "error", "unused-name": "off" }`. Findings that are not named weigh what their rule says. A comment `; allow CODE` silences one at its line.',
  propertyNames: {
    enum: rules.map(({ code }) => code),
    enumDescriptions: rules.map(({ title }) => `${title}.`),
  },
  additionalProperties: {
    type: 'string',
    enum: WEIGHTS.map(([weight]) => weight),
    enumDescriptions: WEIGHTS.map(([, says]) => says),
  },
});
