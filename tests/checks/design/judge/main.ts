/** Random boats of up to 20 devices: the optimum of HiGHS against that of CBC, each on the same program. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createContext } from '../../../../src/checks/context.js';
import { problemOf } from '../../../../src/checks/design/build.js';
import { programOf, type Program } from '../../../../src/checks/design/program.js';
import { loadSolver } from '../../../../src/cli/suggest/highs.js';
import { opened } from '../../../support/opened.js';
import { randomYard, yardText, type Yard } from '../trying.js';
import { mpsOf } from './mps.js';

/** Boats that have a design; those that have none are judged as well. */
const BOATS = 50;
const MOST_BOATS = 400;
const MOST_OF_A_KIND = 10;
/** Prices are whole numbers, and the smallest of what tells designs of one price apart adds up to less than this. */
const APART = 0.05;
const HANG = 120_000;

/** Undefined where there is no design. */
type Optimum = number | undefined;

const folder = mkdtempSync(join(tmpdir(), 'wireloft-designs-'));
const [model, solution] = [join(folder, 'design.mps'), join(folder, 'design.txt')];

function byCbc(program: Program): Optimum {
  writeFileSync(model, mpsOf(program));
  rmSync(solution, { force: true });
  const words = [model, 'ratioGap', '0', 'allowableGap', '0', 'solve', 'solution', solution];
  const { status, stdout, error } = spawnSync('cbc', words, { encoding: 'utf8', timeout: HANG });
  if (status !== 0) throw new Error(`cbc failed: ${error?.message ?? stdout}`);
  // It reads past what it does not understand.
  if (!stdout.includes('read with 0 errors')) throw new Error(`cbc does not read the program: ${stdout}`);
  if (/^Problem is infeasible/m.test(stdout)) return undefined;
  const [first = ''] = readFileSync(solution, 'utf8').split('\n');
  const match = /^Optimal - objective value ([-+.\de]+)$/.exec(first);
  if (match) return Number(match[1]);
  if (/^(?:Infeasible|Integer infeasible)/.test(first)) return undefined;
  throw new Error(`cbc says: ${first}`);
}

const solver = await loadSolver(join(process.cwd(), 'node_modules', 'highs', 'build', 'highs.wasm'));

function byHighs(program: Program): Optimum {
  const solving = solver(program, () => false);
  try {
    const answer = solving.run();
    if (answer.kind === 'interrupted') throw new Error('HiGHS was not done');
    return answer.kind === 'optimal' ? answer.cost : undefined;
  } finally {
    solving.close();
  }
}

let next = 20_261_126;
const random = (): number => {
  next = (Math.imul(next, 1_103_515_245) + 12_345) >>> 0;
  return next / 2 ** 32;
};

/** More to ask for than that everything shows everything: some screens alone, some ports free. */
function needsOf({ screens, boxes }: Yard): string {
  const lines: string[] = [];
  if (screens.length > 1 && random() < 0.4) lines.push('need s0 show b0 without s1');
  if (boxes.length > 1 && random() < 0.3) lines.push('need s0 show b0 without b1');
  if (random() < 0.4) lines.push(`need spare ${1 + Math.floor(random() * 2)} ethernet`);
  return lines.join('\n');
}

const tally = { feasible: 0, none: 0, large: 0, withNewSwitch: 0, columns: 0, rows: 0 };
const wrong: string[] = [];
const started = Date.now();
try {
  for (let number = 0; tally.feasible < BOATS && number < MOST_BOATS; number += 1) {
    const yard = randomYard(random, MOST_OF_A_KIND);
    const text = `${yardText(yard)}\n${needsOf(yard)}\n`;
    const { vessel } = (await opened(text)).analysis;
    const program = programOf(problemOf(createContext(vessel), { devices: new Set(), links: new Set() }));
    const [ours, theirs] = [byHighs(program), byCbc(program)];
    const agree =
      ours === undefined || theirs === undefined ? ours === theirs : Math.abs(ours - theirs) < APART;
    if (!agree) wrong.push(`boat ${number}: HiGHS ${ours ?? 'none'}, CBC ${theirs ?? 'none'}\n${text}`);
    if (ours === undefined) tally.none += 1;
    else tally.feasible += 1;
    if (vessel.devices.length > 12 && ours !== undefined) tally.large += 1;
    if (yard.switches.length > 0 && ours !== undefined) tally.withNewSwitch += 1;
    tally.columns = Math.max(tally.columns, program.columns.length);
    tally.rows = Math.max(tally.rows, program.rows.length);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
console.log(
  `${tally.feasible + tally.none} boats in ${Math.round((Date.now() - started) / 1000)} s:`,
  JSON.stringify(tally),
);
for (const one of wrong) console.error(one);
// A judge that has nothing to judge says nothing.
if (tally.feasible < BOATS || tally.none < 3 || tally.large < 10 || tally.withNewSwitch < 10) {
  console.error('The boats are too much alike to mean anything.');
  process.exitCode = 1;
} else if (wrong.length > 0) process.exitCode = 1;
else console.log(`CBC agrees on all of them, ${BOATS} of which have a design.`);
