/** A snippet as an editor writes it where nobody fills its gaps: with what each gap proposes. */
export const filledIn = (snippet: string): string =>
  snippet.replace(
    /\\([\\$},|])|\$\{\d+:((?:[^\\}]|\\.)*)\}|\$\{\d+\|((?:[^\\,|]|\\.)*)(?:[^|\\]|\\.)*\|\}|\$\d/gs,
    (_, sign: string | undefined, text: string | undefined, first: string | undefined) =>
      sign ?? (text ?? first ?? '').replace(/\\([\\$},|])/g, '$1'),
  );
