/** The caution that stands beside every judgement of a hand: in rule pages, previews, handouts and the README. */

export const CARE =
  'Limits are estimates for an average uninjured hand and no medical advice: warm up, raise load and tempo gradually, ' +
  'rest at least ten minutes an hour, stop at pain, and see a doctor or physiotherapist if it stays.';
