/** Makes the completion provider of the services it reads. */
import type { CompletionClientCapabilities } from 'vscode-languageserver';
import { WireloftTokenBuilder } from '../../parsing/tokens.js';
import type { EditorServices } from '../module.js';
import type { Reader } from './cursor.js';
import { WireloftCompletionProvider } from './provider.js';
import { networkOf } from './reading/network.js';

export function createCompletion(services: EditorServices): WireloftCompletionProvider {
  let client: CompletionClientCapabilities | undefined;
  services.shared.lsp.LanguageServer.onInitialize(({ capabilities }) => {
    client = capabilities.textDocument?.completion;
  });
  return new WireloftCompletionProvider({
    closures: services.shared.naming.Closures,
    scopes: services.references.ScopeProvider,
    analysis: (uri) => services.shared.analysis.Analyses.last(uri),
    reader: () => readerOf(services),
    client: () => client,
  });
}

function readerOf({ parser, Grammar }: EditorServices): Reader {
  const builder = parser.TokenBuilder;
  if (!(builder instanceof WireloftTokenBuilder))
    throw new Error('Completion reads by the tokens of the language.');
  return { lexer: parser.Lexer, builder, network: networkOf(Grammar) };
}
