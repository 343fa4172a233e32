/** The language server as a process: an editor's, or `wireloft lsp --stdio`. The arguments say how to reach it. */
import '../../language/polyfill.js';
import { NodeFileSystem } from 'langium/node';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { threadedArtist } from './drawing/artist/node.js';
import { DiskAndEditorFiles, EditorFiles } from './files.js';
import { rulePages } from './pages.js';
import { commitOf, filesOfBoat } from '../../language/project/commit.js';
import { refusalOnDisk } from '../../language/project/links.js';
import { startServer } from './start.js';
import { thinkerBeside } from './thinker.js';

const connection = createConnection(ProposedFeatures.all);
const files = new DiskAndEditorFiles(NodeFileSystem.fileSystemProvider(), new EditorFiles(connection));
const program = process.argv[1];
startServer(connection, {
  fileSystemProvider: () => files,
  refusal: refusalOnDisk,
  revision: async (closure) => {
    const files = filesOfBoat(closure);
    return files && commitOf(files, process.env);
  },
  ...(program === undefined
    ? {}
    : { rulePage: rulePages(program), artist: threadedArtist(program), thinker: thinkerBeside(program) }),
});
