/** For the person who pulls: what goes along each run, and in which order. */
import type { Passage } from '../../checks/cables/passages.js';
import type { Run } from '../../vessel/model.js';
import { runText } from '../../vessel/routes.js';
import { compareText, number } from '../../vessel/words.js';
import type { Table } from '../frame/table.js';
import type { Facts } from './facts.js';
import { along, fromTheBow } from './plan.js';

/**
 * The order of pulls in a run; what is aboard already lies there, and is not pulled. Moulded heads first while there is room for them, then the thick before the thin; what is of unknown
 * thickness last (common practice, no source).
 */
export function pullTable(facts: Facts): Table {
  const { vessel } = facts.analysis;
  const aboard = new Set(
    [...vessel.links, ...vessel.feeds].flatMap(({ existing, origin }) => (existing ? [origin] : [])),
  );
  const rows = fromTheBow(vessel).flatMap((run) => {
    const all = along(facts, run);
    const inside = all.filter(({ spot }) => aboard.has(spot.origin));
    const pulls = all.filter((pull) => !inside.includes(pull)).sort(inOrder(facts));
    let filled = inside.reduce<number | undefined>(filledBy, 0);
    return pulls.map((pull, index) => {
      filled = filledBy(filled, pull);
      return [
        index === 0 ? [runText(run), boreText(run)].filter((text) => text !== '').join(', ') : '',
        String(index + 1),
        facts.numbering.of(pull.spot.origin) ?? '',
        pull.what,
        headText(facts, pull),
        pull.odMetres === undefined ? '?' : `${number(pull.odMetres * 1000, 1)} mm`,
        run.conduit ? leftText(filled, run.conduitMetres) : run.loom ? 'loom' : 'open',
        surplusText(facts, pull),
      ];
    });
  });
  return {
    title: 'Pull table',
    note: 'run by run, in the order of pulling',
    columns: [
      { title: 'Run, bore', share: 24 },
      { title: 'Pull', share: 6 },
      { title: 'Cable', share: 10 },
      { title: 'From and to', share: 32 },
      { title: 'Enters first', share: 27 },
      { title: 'Outside', share: 11 },
      { title: 'Bore left', share: 12 },
      { title: 'Surplus, coiled at', share: 21 },
    ],
    rows,
  };
}

/** Squares of the diameters in a run; undefined once a thickness is not known. */
const filledBy = (filled: number | undefined, { odMetres }: Passage): number | undefined =>
  filled === undefined || odMetres === undefined ? undefined : filled + odMetres ** 2;

function inOrder({ numbering }: Facts): (x: Passage, y: Passage) => number {
  return (x, y) =>
    (y.headMetres ?? 0) - (x.headMetres ?? 0) ||
    (y.odMetres ?? 0) - (x.odMetres ?? 0) ||
    compareText(numbering.of(x.spot.origin) ?? '', numbering.of(y.spot.origin) ?? '');
}

/** A tail is fast at its device: its moulded head has to go through. A cable with heads at both ends may go either way. */
function headText({ analysis }: Facts, pull: Passage): string {
  if (!pull.moulded) return 'either end, bare';
  const run = analysis.cables.find(({ link }) => link.origin === pull.spot.origin);
  const wired = analysis.links.find(({ link }) => link.origin === pull.spot.origin);
  const head = pull.headMetres === undefined ? 'head ?' : `head ${number(pull.headMetres * 1000, 1)} mm`;
  if (run?.captiveMetres === undefined) return `either end, ${head}`;
  const tail = wired?.a?.port.captive === undefined ? wired?.b : wired.a;
  return `${head}, from ${tail?.device ?? 'its device'}`;
}

/** The conduit's inner diameter. */
function boreText(run: Run): string {
  if (!run.conduit) return '';
  return run.conduitMetres === undefined ? 'bore ?' : `${number(run.conduitMetres * 1000, 1)} mm`;
}

/** Share of the conduit's cross-section that is free after this pull. */
function leftText(filled: number | undefined, bore: number | undefined): string {
  if (filled === undefined || bore === undefined) return '?';
  const left = (1 - filled / bore ** 2) * 100;
  return left < 0 ? 'none' : `${number(left, 0)} %`;
}

/** What is bought beyond what is needed stays at the end that is not fast at its device. */
function surplusText({ analysis }: Facts, pull: Passage): string {
  const run = analysis.cables.find(({ link }) => link.origin === pull.spot.origin);
  if (run?.neededMetres === undefined) return '';
  if (run.pieces.length === 0 && run.captiveMetres === undefined) return 'cut to length';
  const bought = run.pieces.reduce((sum, piece) => sum + piece, run.captiveMetres ?? 0);
  const wired = analysis.links.find(({ link }) => link.origin === pull.spot.origin);
  const tailIsAt =
    wired?.a?.port.captive !== undefined ? 'a' : wired?.b?.port.captive !== undefined ? 'b' : undefined;
  const surplus = bought - run.neededMetres;
  if (surplus < 0) return `short by ${number(-surplus, 1)} m`;
  return surplus < 0.05 ? 'none' : `${number(surplus, 1)} m, ${tailIsAt === 'b' ? pull.from : pull.to}`;
}
