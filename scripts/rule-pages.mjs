/** `node scripts/rule-pages.mjs`: brings docs/rules up to date with the registry of rules, and names what is missing. */
import { ensureInstalled } from './lib/install.mjs';
import { at, fail, readIfThere, say, writeIfChanged } from './lib/project.mjs';

ensureInstalled();
const [{ build }, { pageOf, produceRulePages, rulePages }] = await Promise.all([
  import('esbuild'),
  import('./lib/rule-pages.mjs'),
]);
const bundled = await build({
  entryPoints: [at('src', 'checks', 'rules.ts')],
  bundle: true,
  platform: 'node',
  format: 'esm',
  write: false,
  logLevel: 'warning',
});
const source = bundled.outputFiles[0]?.contents ?? new Uint8Array();
/** @type {{ RULES: readonly import('./lib/rule-pages.mjs').RuleInfo[] }} */
const { RULES } = await import(`data:text/javascript;base64,${Buffer.from(source).toString('base64')}`);

for (const [path, text] of await produceRulePages(RULES))
  if (writeIfChanged(at(path), text)) say(`written ${path}`);
const expected = new Set(RULES.map((rule) => pageOf(rule.code)));
const missing = [...expected].filter((path) => readIfThere(at(path)) === undefined);
const stray = rulePages().filter((path) => !expected.has(path));
if (missing.length + stray.length > 0)
  fail(
    [...missing.map((path) => `${path} is missing`), ...stray.map((path) => `${path} is about no rule`)].join(
      '\n',
    ),
  );
