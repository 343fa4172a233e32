/**
 * `npm run check-drawings`: reads the examples' PDF with poppler, a reader that shares nothing with the writer. Every device is found as
 * text, every font is embedded, nothing is complained of, and two runs give the same bytes. Installs Debian's poppler-utils where it is
 * missing, and fails where that cannot be had.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { at, fail, root, say } from './lib/project.mjs';
import { installPackages } from './lib/system.mjs';

const EXAMPLES = ['kittiwake/kittiwake', 'motoryacht/razorbill', 'openboat/dunlin', 'sailing/whimbrel'];

/**
 * @param {string} program
 * @param {readonly string[]} args
 */
function run(program, args) {
  const result = spawnSync(program, args, { cwd: root, encoding: 'utf8', maxBuffer: 1 << 28 });
  if (result.error) fail(`${program} could not be started: ${result.error.message}`);
  if (result.status !== 0) fail(`${program} ${args.join(' ')} failed:\n${result.stderr}`);
  return result;
}

if (spawnSync('pdftotext', ['-v']).error !== undefined) installPackages('poppler-utils');

const folder = mkdtempSync(join(tmpdir(), 'wireloft-drawings-'));
/** @type {string[]} */
const problems = [];
let devices = 0;
for (const example of EXAMPLES) {
  const source = at('examples', `${example}.loft`);
  /** @param {string} out */
  const draw = (out) => {
    run(process.execPath, [
      at('dist', 'cli', 'main.mjs'),
      'draw',
      source,
      '--out',
      join(folder, out),
      '--format',
      'pdf',
      '--date',
      '2026-05-01',
    ]);
    return join(folder, out, 'drawings.pdf');
  };
  const [first, second] = [draw(`${example}-1`), draw(`${example}-2`)];
  if (!readFileSync(first).equals(readFileSync(second))) problems.push(`${example}: two runs differ`);
  const text = run('pdftotext', ['-layout', first, '-']);
  const fonts = run('pdffonts', [first]);
  for (const { stderr } of [text, fonts, run('pdfinfo', [first])])
    if (stderr.trim() !== '') problems.push(`${example}: ${stderr.trim()}`);
  // name, type, encoding, then whether it is embedded, a subset, and has a table back to text.
  const faces = fonts.stdout.trim().split('\n').slice(2);
  if (faces.length === 0) problems.push(`${example}: no font`);
  for (const face of faces)
    if (!/\s(yes) (yes|no ) (yes)\s+\d+\s+\d+$/.test(face))
      problems.push(`${example}: not embedded: ${face}`);
  const words = new Set(text.stdout.split(/[^\p{L}\p{N}_]+/u));
  const texts = readdirSync(dirname(source)).filter((name) => name.endsWith('.loft'));
  for (const name of texts) {
    const declared = readFileSync(join(dirname(source), name), 'utf8').matchAll(
      /^ *device +([\p{L}_][\p{L}\p{N}_]*)/gmu,
    );
    for (const [, device = ''] of declared) {
      devices += 1;
      if (!words.has(device)) problems.push(`${example}: ${device} is not in the text`);
    }
  }
}
rmSync(folder, { recursive: true, force: true });
if (devices < 40) problems.push(`only ${devices} devices were looked for`);
if (problems.length > 0) fail(problems.join('\n'));
say(`${EXAMPLES.length} sets of drawings read by another reader, ${devices} devices found.`);
