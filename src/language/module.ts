/** Puts the language's services together. One folder a concern; a face adds a connection or a file system. */
import './polyfill.js';
import {
  createDefaultCoreModule,
  createDefaultSharedCoreModule,
  inject,
  type DefaultSharedCoreModuleContext,
  type LangiumCoreServices,
  type LangiumSharedCoreServices,
  type Module,
  type PartialLangiumCoreServices,
} from 'langium';
import { WireloftGeneratedModule, WireloftGeneratedSharedModule } from './generated/module.js';
import { WireloftLexer } from './parsing/lexer.js';
import { createCompletion, createParser } from './parsing/parser.js';
import { WireloftTokenBuilder } from './parsing/tokens.js';
import { WireloftValueConverter } from './parsing/values.js';

export const CoreModule: Module<LangiumCoreServices, PartialLangiumCoreServices> = {
  parser: {
    TokenBuilder: () => new WireloftTokenBuilder(),
    Lexer: (services) => new WireloftLexer(services),
    ValueConverter: () => new WireloftValueConverter(),
    LangiumParser: (services) => createParser(services),
    CompletionParser: (services) => createCompletion(services),
  },
};

export function createCoreServices(context: DefaultSharedCoreModuleContext): { shared: LangiumSharedCoreServices; Wireloft: LangiumCoreServices } {
  const shared = inject(createDefaultSharedCoreModule(context), WireloftGeneratedSharedModule);
  const Wireloft = inject(createDefaultCoreModule({ shared }), WireloftGeneratedModule, CoreModule);
  shared.ServiceRegistry.register(Wireloft);
  return { shared, Wireloft };
}
