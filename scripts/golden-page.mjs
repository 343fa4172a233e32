/**
 * Lays the examples' drawings side by side, as they were in a commit and as they are now, in out/goldens/index.html. Only what differs is
 * shown. `node scripts/golden-page.mjs [COMMIT]`; without one, the last.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const commit = process.argv[2] ?? 'HEAD';
/** @param {string[]} args */
const git = (...args) => execFileSync('git', args, { cwd: root, encoding: 'utf8', maxBuffer: 1 << 28 });
const golden = 'tests/golden';
/** @param {string} path */
const isGolden = (path) => /\.(svg|txt)$/.test(path);
const before = git('ls-tree', '-r', '--name-only', commit, '--', golden).split('\n').filter(isGolden);
const now = readdirSync(join(root, golden), { recursive: true })
  .map((path) => `${golden}/${String(path).replaceAll('\\', '/')}`)
  .filter(isGolden);

const out = join(root, 'out', 'goldens');
rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
/** @param {string} text */
const escaped = (text) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');

/**
 * @param {string} path
 * @param {string | undefined} text
 * @param {string} side
 */
function shown(path, text, side) {
  if (text === undefined) return '<p>not there</p>';
  if (path.endsWith('.txt')) return `<pre>${escaped(text)}</pre>`;
  const name = `${path
    .slice(golden.length + 1)
    .replaceAll('/', '-')
    .slice(0, -4)}-${side}.svg`;
  writeFileSync(join(out, name), text);
  return `<a href="${name}"><img src="${name}" alt="${side}"></a>`;
}

let changed = 0;
const rows = [...new Set([...before, ...now])].sort().flatMap((path) => {
  const old = before.includes(path) ? git('show', `${commit}:${path}`) : undefined;
  const file = join(root, path);
  const current = existsSync(file) ? readFileSync(file, 'utf8') : undefined;
  if (old === current) return [];
  changed += 1;
  return [
    `<h2>${escaped(path)}</h2><div><section>${shown(path, old, 'old')}</section><section>${shown(path, current, 'new')}</section></div>`,
  ];
});
writeFileSync(
  join(out, 'index.html'),
  `<!doctype html><html lang="en"><meta charset="utf-8"><title>Drawings, old and new</title>
<style>body{font-family:sans-serif}div{display:grid;grid-template-columns:1fr 1fr;gap:1em}img{width:100%;border:1px solid #888;background:#fff}</style>
<h1>Drawings: ${escaped(commit)} on the left, now on the right</h1>
${rows.join('\n') || '<p>Nothing differs.</p>'}
</html>
`,
);
console.log(`${changed} of ${now.length} differ: out/goldens/index.html`);
