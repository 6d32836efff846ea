/** The sentence of care that goes with every judgement of a hand's reach and speed. */
export const CARE =
  'Reach and speed are estimates for an average uninjured hand, not medical advice: warm up, raise load and tempo gradually, ' +
  'rest at least ten minutes an hour, stop at pain, and see a doctor or physiotherapist if it stays.';
