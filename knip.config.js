import { existsSync } from 'node:fs';

// Until both faces are there, the floors below have no one to use them but their tests.
const faces = [
  'src/cli/main.ts',
  'src/extension/main.ts',
  'src/extension/server/main.ts',
  'src/extension/web.ts',
  'src/extension/server/worker.ts',
];
const complete = faces.every((face) => existsSync(new URL(face, import.meta.url)));
const awaited = [
  '@types/vscode',
  'ajv',
  'ajv-formats',
  'fast-check',
  'vscode-languageclient',
  'vscode-languageserver',
  'vscode-languageserver-textdocument',
  'vscode-oniguruma',
  'vscode-textmate',
  'vscode-uri',
];

/** @type {import('knip').KnipConfig} */
export default {
  entry: [
    ...(complete ? faces : ['src/**/*.ts']).map((entry) => `${entry}!`),
    'scripts/*.mjs',
    'bench/main.ts',
    'bench/bare/server.ts',
    'tests/**/*.test.ts',
  ],
  project: [
    'src/**/*.ts!',
    'tests/**/*.ts',
    'scripts/**/*.mjs',
    'bench/**/*.ts',
    '!src/language/generated/**',
  ],
  ignoreDependencies: [
    'langium-cli', // run by its path, see scripts/lib/generated.mjs
    ...(complete ? [] : awaited),
  ],
  // A type that an exported function speaks of is part of its signature, wherever else it is used.
  ignoreExportsUsedInFile: { interface: true, type: true },
};
