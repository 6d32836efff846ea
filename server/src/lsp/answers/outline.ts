/** Answers with the outline of a lesson, and with what of it can be folded. */
import type {
  DocumentSymbol,
  DocumentSymbolParams,
  FoldingRange,
  FoldingRangeParams,
  SymbolInformation,
} from 'vscode-languageserver';
import { foldsOf } from '../../features/folding.ts';
import { symbolsOf } from '../../features/symbols.ts';
import { flatSymbols, foldFrom, symbolFrom } from '../convert.ts';
import type { Answer } from '../desk.ts';

export const outline: Answer = {
  offers: () => ({ documentSymbolProvider: true, foldingRangeProvider: true }),
  listen({ connection, about, client }) {
    connection.onDocumentSymbol(
      about<DocumentSymbolParams, DocumentSymbol[] | SymbolInformation[] | null>(
        'outline',
        (lesson) => {
          const symbols = symbolsOf(lesson.analysis);
          return client().symbolTree ? symbols.map((one) => symbolFrom(one, lesson)) : flatSymbols(symbols, lesson);
        },
        null,
      ),
    );
    connection.onFoldingRanges(
      about<FoldingRangeParams, FoldingRange[] | null>(
        'folding',
        (lesson) => foldsOf(lesson.analysis).map(foldFrom),
        null,
      ),
    );
  },
};
