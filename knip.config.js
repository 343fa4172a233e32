const faces = [
  'src/cli/main.ts',
  'src/cli/worker.ts',
  'src/cli/draw/writers.ts',
  'src/extension/main.ts',
  'src/extension/page/main.ts',
  'src/extension/server/main.ts',
  'src/extension/server/thinkerThread.ts',
  'src/extension/web.ts',
  'src/extension/server/worker.ts',
  'src/extension/server/drawing/artist/thread.ts',
  'src/extension/server/drawing/artist/webThread.ts',
];
/** @type {import('knip').KnipConfig} */
export default {
  entry: [
    ...faces.map((entry) => `${entry}!`),
    'scripts/*.mjs',
    'bench/main.ts',
    'bench/bare/server.ts',
    'bench/power/once.ts',
    'tests/checks/design/judge/main.ts',
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
    '@canboat/pgns', // read by its path, see scripts/lib/pgn-table.mjs
    'dejavu-fonts-ttf', // copied by its path, see scripts/lib/bundles.mjs
  ],
  // Debian's, see scripts/lib/system.mjs, scripts/check-drawings.mjs, scripts/check-designs.mjs and tests/cli/interrupt.test.ts.
  ignoreBinaries: ['apt-get', 'pdftotext', 'cbc', 'script'],
  // A type that an exported function speaks of is part of its signature, wherever else it is used.
  ignoreExportsUsedInFile: { interface: true, type: true },
};
