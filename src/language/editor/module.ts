/** The services an editor needs on top of the language's. */
import { inject, type Module, type URI } from 'langium';
import {
  createDefaultModule,
  createDefaultSharedModule,
  type DefaultSharedModuleContext,
  type LangiumServices,
  type LangiumSharedServices,
  type PartialLangiumServices,
  type PartialLangiumSharedServices,
} from 'langium/lsp';
import { WireloftFormatter } from '../formatting/formatter.js';
import { WireloftGeneratedModule, WireloftGeneratedSharedModule } from '../generated/module.js';
import {
  languageModule,
  sharedModule,
  type AddedServices,
  type AddedSharedServices,
  type World,
} from '../module.js';
import { createCompletion } from './completion/create.js';
import { WireloftCodeActionProvider } from './actions.js';
import { WireloftInlayHintProvider } from './hints.js';
import { WireloftHoverProvider } from './hover/provider.js';
import { WireloftCodeLensProvider } from './lenses.js';
import { WireloftDocumentLinkProvider } from './links.js';
import {
  WireloftDefinitionProvider,
  WireloftHighlightProvider,
  WireloftReferencesProvider,
  WireloftRenameProvider,
} from './navigation.js';
import { WireloftLanguageServer } from './server.js';
import { WireloftDocumentSymbolProvider, WireloftWorkspaceSymbolProvider } from './symbols.js';
import { Thoughts } from './thoughts.js';
import { WireloftSemanticTokenProvider } from './tokens.js';
import { WireloftValidator } from './validator.js';
import { WireloftWorkspaceManager, workspaceRoot } from './workspace.js';

export type EditorSharedServices = LangiumSharedServices &
  AddedSharedServices & { readonly editor: { readonly Thoughts: Thoughts } };
export type EditorServices = Omit<LangiumServices, 'shared'> &
  AddedServices & { readonly shared: EditorSharedServices };

/** What the face that starts the server knows. */
export interface EditorWorld {
  readonly today: () => string;
  /** Address of a rule's page, where there is one. */
  readonly rulePage: (rule: string) => string | undefined;
  /** Why a file that is there may not be used within a root; only a face with a disk can tell. */
  readonly refusal?: ((uri: URI, root: URI) => string | undefined) | undefined;
}

const validatorOf = (services: EditorServices, world: EditorWorld): WireloftValidator =>
  new WireloftValidator(
    () => services.diagnosis.Diagnosing,
    services.shared.analysis.Analyses,
    services.shared.analysis.Variants,
    services.shared.editor.Thoughts,
    world.rulePage,
  );

const editorModule = (world: EditorWorld): Module<EditorServices, PartialLangiumServices> => ({
  validation: {
    DocumentValidator: (services) => validatorOf(services, world),
  },
  lsp: {
    CompletionProvider: (services) => createCompletion(services),
    HoverProvider: (services) =>
      new WireloftHoverProvider(
        services.shared.naming.Closures,
        services.shared.analysis.Analyses,
        services.shared.analysis.Variants,
      ),
    InlayHintProvider: (services) =>
      new WireloftInlayHintProvider(services.shared.analysis.Analyses, services.shared.analysis.Variants),
    CodeLensProvider: (services) =>
      new WireloftCodeLensProvider(
        services.shared.analysis.Analyses,
        services.shared.analysis.Variants,
        services.shared.editor.Thoughts,
      ),
    CodeActionProvider: (services) =>
      new WireloftCodeActionProvider(
        () => validatorOf(services, world),
        services.shared.analysis.Analyses,
        services.shared.analysis.Variants,
        services.shared.naming.Closures,
      ),
    Formatter: (services) => new WireloftFormatter(services),
    DefinitionProvider: (services) => new WireloftDefinitionProvider(services.shared.naming.Closures),
    ReferencesProvider: (services) => new WireloftReferencesProvider(services.shared.naming.Closures),
    DocumentHighlightProvider: (services) => new WireloftHighlightProvider(services.shared.naming.Closures),
    RenameProvider: (services) => new WireloftRenameProvider(services.shared.naming.Closures),
    DocumentSymbolProvider: () => new WireloftDocumentSymbolProvider(),
    SemanticTokenProvider: (services) => new WireloftSemanticTokenProvider(services),
    DocumentLinkProvider: (services) => new WireloftDocumentLinkProvider(services.shared.naming.Closures),
  },
});

const sharedEditorModule: Module<
  EditorSharedServices,
  PartialLangiumSharedServices & Pick<EditorSharedServices, 'editor'>
> = {
  editor: {
    Thoughts: () => new Thoughts(),
  },
  lsp: {
    LanguageServer: (services) => new WireloftLanguageServer(services),
    WorkspaceSymbolProvider: (services) =>
      new WireloftWorkspaceSymbolProvider(
        () => services.workspace.LangiumDocuments,
        services.lsp.FuzzyMatcher,
      ),
  },
  workspace: {
    WorkspaceManager: (services) => new WireloftWorkspaceManager(services),
  },
};

export function createEditorServices(
  context: DefaultSharedModuleContext,
  world: EditorWorld,
): { shared: EditorSharedServices; Wireloft: EditorServices } {
  const languageWorld: World = {
    root: (uri) => workspaceRoot(shared, uri),
    today: world.today,
    surroundings: { refusal: (uri) => world.refusal?.(uri, workspaceRoot(shared, uri)) },
  };
  const shared: EditorSharedServices = inject(
    createDefaultSharedModule(context),
    WireloftGeneratedSharedModule,
    sharedModule(languageWorld),
    sharedEditorModule,
  );
  const Wireloft: EditorServices = inject(
    createDefaultModule({ shared }),
    WireloftGeneratedModule,
    languageModule,
    editorModule(world),
  );
  shared.ServiceRegistry.register(Wireloft);
  return { shared, Wireloft };
}
