/**
 * Langium as it comes, on the same grammar and tokens: its own parser, scopes, index, linker and document builder. It is what
 * the language's own figures are held against.
 */
import '../../src/language/polyfill.js';
import {
  createDefaultCoreModule,
  createDefaultSharedCoreModule,
  EmptyFileSystem,
  inject,
  type FileSystemProvider,
  type LangiumCoreServices,
  type LangiumSharedCoreServices,
  type Module,
  type PartialLangiumCoreServices,
} from 'langium';
import { createDefaultModule, createDefaultSharedModule, type LangiumSharedServices } from 'langium/lsp';
import type { Connection } from 'vscode-languageserver';
import {
  WireloftGeneratedModule,
  WireloftGeneratedSharedModule,
} from '../../src/language/generated/module.js';
import { WireloftLexer } from '../../src/language/parsing/lexer.js';
import { WireloftTokenBuilder } from '../../src/language/parsing/tokens.js';

const tokens: Module<LangiumCoreServices, PartialLangiumCoreServices> = {
  parser: {
    TokenBuilder: () => new WireloftTokenBuilder(),
    Lexer: (services) => new WireloftLexer(services),
  },
};

export function createBareServices(): LangiumSharedCoreServices {
  const shared = inject(createDefaultSharedCoreModule(EmptyFileSystem), WireloftGeneratedSharedModule);
  const language = inject(createDefaultCoreModule({ shared }), WireloftGeneratedModule, tokens);
  shared.ServiceRegistry.register(language);
  return shared;
}

export function createBareServer(
  connection: Connection,
  fileSystemProvider: () => FileSystemProvider,
): LangiumSharedServices {
  const shared = inject(
    createDefaultSharedModule({ connection, fileSystemProvider }),
    WireloftGeneratedSharedModule,
  );
  const language = inject(createDefaultModule({ shared }), WireloftGeneratedModule, tokens);
  shared.ServiceRegistry.register(language);
  return shared;
}
