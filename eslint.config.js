import js from '@eslint/js';
import { defineConfig, globalIgnores } from 'eslint/config';
import ts from 'typescript-eslint';

const noDefaultExport = {
  selector: 'ExportDefaultDeclaration',
  message: 'Export by name: a name is found, renamed and completed.',
};

const outsideWorld = [
  'process',
  'Buffer',
  'console',
  '__dirname',
  '__filename',
  'require',
  'fetch',
  'setTimeout',
];

export default defineConfig(
  globalIgnores(['dist/', 'out/', 'coverage/', 'src/language/generated/', 'src/vessel/pgns/table.ts']),
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  js.configs.recommended,
  {
    files: ['**/*.ts'],
    extends: [ts.configs.strictTypeChecked, ts.configs.stylisticTypeChecked],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      '@typescript-eslint/explicit-module-boundary-types': 'error',
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      eqeqeq: 'error',
      'no-restricted-syntax': ['error', noDefaultExport],
      'object-shorthand': 'error',
      'prefer-template': 'error',
    },
  },
  {
    files: ['src/language/**/*.ts', 'src/extension/server/**/*.ts'],
    rules: {
      // In a half-typed text the syntax tree lacks what its types promise, so a guard here is never unnecessary.
      '@typescript-eslint/no-unnecessary-condition': 'off',
      // A validation's or a provider's method is handed over unbound by design.
      '@typescript-eslint/unbound-method': 'off',
    },
  },
  {
    files: ['src/vessel/**/*.ts', 'src/checks/**/*.ts', 'src/documents/**/*.ts'],
    rules: {
      'no-restricted-globals': [
        'error',
        ...outsideWorld.map((name) => ({ name, message: 'This floor knows neither files nor processes.' })),
      ],
    },
  },
  {
    files: ['tests/**/*.ts'],
    rules: { '@typescript-eslint/no-unnecessary-condition': 'off' },
  },
  {
    files: ['*.config.ts', '*.config.js'],
    rules: { 'no-restricted-syntax': 'off' },
  },
  {
    files: ['**/*.mjs', '**/*.js'],
    languageOptions: {
      globals: { process: 'readonly', Buffer: 'readonly', console: 'readonly', URL: 'readonly' },
    },
  },
);
