/** Puts the language's services together. One folder a concern; a face adds a connection or a file system. */
import './polyfill.js';
import {
  createDefaultCoreModule,
  createDefaultSharedCoreModule,
  EMPTY_STREAM,
  inject,
  type URI,
  UriUtils,
  type DefaultSharedCoreModuleContext,
  type LangiumCoreServices,
  type LangiumSharedCoreServices,
  type LocalSymbols,
  type Module,
  type PartialLangiumCoreServices,
  type PartialLangiumSharedCoreServices,
  type ReferenceInfo,
} from 'langium';
import { Analyses } from './analysis/analyses.js';
import { Variants } from './analysis/variants.js';
import type { Diagnosing } from './diagnosis/document.js';
import type { Surroundings } from './diagnosis/uses.js';
import { WireloftGeneratedModule, WireloftGeneratedSharedModule } from './generated/module.js';
import { WireloftDocumentBuilder } from './naming/builder.js';
import { Closures } from './naming/closures.js';
import { WireloftLinker } from './naming/linker.js';
import { WireloftScopeProvider } from './naming/scopes.js';
import { WireloftLexer } from './parsing/lexer.js';
import { WireloftParserMessages } from './parsing/messages.js';
import { createCompletion, createParser } from './parsing/parser.js';
import { keywordsOf, WireloftTokenBuilder } from './parsing/tokens.js';
import { WireloftValueConverter } from './parsing/values.js';

/** What a face knows of the world around the files. */
export interface World {
  /** The folder that a file's uses must stay inside. */
  root: (uri: URI) => URI;
  /** Today's date, ISO 8601. */
  today: () => string;
  surroundings: Surroundings;
}

export interface AddedSharedServices {
  world: World;
  naming: { Closures: Closures };
  analysis: { Analyses: Analyses; Variants: Variants };
}

export interface AddedServices {
  diagnosis: { Diagnosing: Diagnosing };
}

export type SharedServices = LangiumSharedCoreServices & AddedSharedServices;
export type Services = LangiumCoreServices & AddedServices;

/** The world of a single folder tree: nothing is refused, and every file's root is its folder. */
export const smallWorld = (today: string): World => ({
  root: (uri) => UriUtils.dirname(uri),
  today: () => today,
  surroundings: { refusal: () => undefined },
});

export function sharedModule(
  world: World,
): Module<SharedServices, PartialLangiumSharedCoreServices & AddedSharedServices> {
  return {
    world: () => world,
    naming: {
      Closures: (services) =>
        new Closures(
          () => services.workspace.LangiumDocuments,
          (uri) => services.world.root(uri),
        ),
    },
    analysis: {
      Analyses: (services) => new Analyses(services.naming.Closures, () => services.world.today()),
      Variants: (services) => new Variants(services.analysis.Analyses),
    },
    workspace: {
      DocumentBuilder: (services) =>
        new WireloftDocumentBuilder(
          services,
          services.naming.Closures,
          (uri) => services.world.surroundings.refusal(uri) !== undefined,
        ),
    },
  };
}

export const languageModule: Module<Services, PartialLangiumCoreServices & AddedServices> = {
  parser: {
    TokenBuilder: () => new WireloftTokenBuilder(),
    Lexer: (services) => new WireloftLexer(services),
    ValueConverter: () => new WireloftValueConverter(),
    ParserErrorMessageProvider: () => new WireloftParserMessages(),
    LangiumParser: (services) => createParser(services),
    CompletionParser: (services) => createCompletion(services),
  },
  references: {
    Linker: (services) => new WireloftLinker(services),
    ScopeProvider: (services) =>
      new WireloftScopeProvider(added(services.shared).naming.Closures, typeOf(services)),
    // Names are kept by closure (naming/), not in Langium's index.
    ScopeComputation: () => ({
      collectExportedSymbols: () => Promise.resolve([]),
      collectLocalSymbols: () => Promise.resolve(noSymbols),
    }),
  },
  workspace: {
    // References are found by walking the closure when somebody asks, instead of an index kept on every keystroke.
    ReferenceDescriptionProvider: () => ({ createDescriptions: () => Promise.resolve([]) }),
  },
  diagnosis: {
    Diagnosing: (services) => {
      const shared = added(services.shared);
      return {
        closures: shared.naming.Closures,
        surroundings: shared.world.surroundings,
        keywords: keywordsOf(services.Grammar).filter((keyword) => /^[a-z]/.test(keyword)),
        namesAt: (info) =>
          services.references.ScopeProvider.getScope(info)
            .getAllElements()
            .map((element) => element.name),
        typeOf: typeOf(services),
      };
    },
  },
};

const noSymbols: LocalSymbols = { has: () => false, getStream: () => EMPTY_STREAM };

const added = (shared: LangiumSharedCoreServices): SharedServices => shared as SharedServices;

function typeOf(services: LangiumCoreServices): (info: ReferenceInfo) => string {
  const reflection = services.shared.AstReflection;
  return (info) => reflection.getReferenceType(info);
}

/** Core services without a language server: for the terminal, tests and scripts. */
export function createCoreServices(
  context: DefaultSharedCoreModuleContext,
  world: World = smallWorld('1970-01-01'),
): { shared: SharedServices; Wireloft: Services } {
  const shared = inject(
    createDefaultSharedCoreModule(context),
    WireloftGeneratedSharedModule,
    sharedModule(world),
  );
  const Wireloft = inject(createDefaultCoreModule({ shared }), WireloftGeneratedModule, languageModule);
  shared.ServiceRegistry.register(Wireloft);
  return { shared, Wireloft };
}
