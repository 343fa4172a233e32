/**
 * `npm run test:office`: an office program opens the workbook of the example boats, works every formula out anew, and comes to the
 * totals of `list parts` and `list options`. Installs Debian's libreoffice-calc where it is not there; a missing program fails.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ensureBuilt } from '../../../scripts/lib/bundles.mjs';
import { at, fail, say } from '../../../scripts/lib/project.mjs';
import { installPackages } from '../../../scripts/lib/system.mjs';

const soffice = '/usr/bin/soffice';
const boats = ['kittiwake/kittiwake.loft', 'motoryacht/razorbill.loft'];

/**
 * @param {string} program
 * @param {readonly string[]} args
 * @param {import('node:child_process').SpawnSyncOptions} [options]
 */
function run(program, args, options) {
  const result = spawnSync(program, args, { encoding: 'utf8', maxBuffer: 1e8, timeout: 300_000, ...options });
  if (result.status !== 0)
    fail(`${program} ${args.join(' ')} failed: ${result.error?.message ?? String(result.stderr)}`);
  return String(result.stdout);
}

if (!existsSync(soffice)) installPackages('libreoffice-calc');
if (!existsSync(soffice)) fail(`${soffice} is missing.`);

await ensureBuilt();
const folder = mkdtempSync(join(tmpdir(), 'wireloft-office-'));
/**
 * A copy of a workbook without the values that are stored beside its formulas, so that whoever opens it works them out.
 * @param {string} from @param {string} to
 */
async function forgetValues(from, to) {
  const { strFromU8, strToU8, unzipSync, zipSync } = await import('fflate');
  let formulas = 0;
  const parts = Object.entries(unzipSync(readFileSync(from))).map(([name, content]) => {
    if (!/^xl\/worksheets\/[^/]+\.xml$/.test(name)) return [name, content];
    const bare = strFromU8(content).replaceAll(/(<f>[^<]*<\/f>)<v>[^<]*<\/v>/g, (_, formula) => {
      formulas++;
      return formula;
    });
    return [name, strToU8(bare)];
  });
  if (formulas === 0) fail(`${from} has no formulas with values.`);
  writeFileSync(to, zipSync(Object.fromEntries(parts)));
}

/** Lines that begin with "Total": the label, and the numbers after it. @param {string} csv */
const totalsIn = (csv) =>
  csv
    .split('\n')
    .filter((line) => line.startsWith('Total '))
    .map((line) => ({
      currency: line.split(',')[0]?.slice('Total '.length),
      amounts: line
        .split(',')
        .slice(1)
        .filter((cell) => /^-?\d+(?:\.\d+)?$/.test(cell.trim()))
        .map(Number),
    }));

try {
  let checked = 0;
  for (const boat of boats) {
    const file = at('examples', boat);
    const program = at('dist', 'cli', 'main.mjs');
    /** @param {string} what */
    const listed = (what) =>
      JSON.parse(run(process.execPath, [program, 'list', what, file, '--format', 'json'], { cwd: at() }));
    const out = join(folder, boat.replace(/\W/g, '-'));
    run(process.execPath, [program, 'report', file, '--out', out], { cwd: at() });
    const workbook = join(folder, 'schedules.xlsx');
    await forgetValues(join(out, 'schedules.xlsx'), workbook);
    /** @param {string} to @param {string} profile */
    const convert = (to, profile) => {
      const filter = 'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1';
      const user = `-env:UserInstallation=${pathToFileURL(join(folder, profile)).href}`;
      run(soffice, [user, '--headless', '--convert-to', filter, '--outdir', to, workbook]);
      return Object.fromEntries(
        readdirSync(to).map((name) => [
          name.replace(/^schedules-|\.csv$/g, ''),
          readFileSync(join(to, name), 'utf8'),
        ]),
      );
    };
    const sheets = convert(join(out, 'csv'), 'profile');
    /** @type {Map<string, number>} */
    const wanted = new Map();
    for (const { existing, totalPrice, currency } of listed('parts'))
      if (!existing && totalPrice !== null) wanted.set(currency, (wanted.get(currency) ?? 0) + totalPrice);
    const parts = totalsIn(sheets['Parts'] ?? '');
    if (wanted.size === 0 || parts.length !== wanted.size)
      fail(`${boat}: ${parts.length} totals, not ${wanted.size}.`);
    for (const { currency = '', amounts } of parts) {
      const amount = wanted.get(currency) ?? NaN;
      if (amounts.length !== 1 || !(Math.abs((amounts[0] ?? NaN) - amount) < 0.005))
        fail(`${boat}: parts come to ${amounts.join(', ')} ${currency}, not ${amount}.`);
      checked++;
    }
    const options = listed('options');
    if (options.length > 1) {
      for (const { currency = '', amounts } of totalsIn(sheets['Options'] ?? '')) {
        const each = options.map((/** @type {{ totals: string[] }} */ { totals }) =>
          Number(totals.find((total) => total.endsWith(` ${currency}`))?.split(' ')[0] ?? 0),
        );
        if (
          each.length !== amounts.length ||
          each.some(
            (/** @type {number} */ one, /** @type {number} */ index) =>
              !(Math.abs(one - (amounts[index] ?? NaN)) < 0.01),
          )
        )
          fail(`${boat}: options come to ${amounts.join(', ')} ${currency}, not ${each.join(', ')}.`);
        checked += each.length;
      }
    }
    say(`${boat}: ${Object.keys(sheets).length} sheets opened, totals as listed.`);
  }
  if (checked < 4) fail(`Only ${checked} totals were compared.`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
