/** For the person who pulls and crimps: what goes along each run and in which order, and which core goes where. */
import type { Passage } from '../../checks/cables/passages.js';
import type { Run } from '../../vessel/model.js';
import { runText } from '../../vessel/routes.js';
import { compareText, number } from '../../vessel/words.js';
import type { Table } from '../frame/table.js';
import type { Facts } from './facts.js';
import { along } from './plan.js';

/**
 * The order of pulls in a run: moulded heads first while there is room for them, then the thick before the thin; what is of unknown
 * thickness last (common practice, no source).
 */
export function pullTable(facts: Facts): Table {
  const { vessel } = facts.analysis;
  const rows = vessel.runs.flatMap((run) => {
    const pulls = [...along(facts, run)].sort(inOrder(facts));
    let filled: number | undefined = 0;
    return pulls.map((pull, index) => {
      filled = filled === undefined || pull.odMetres === undefined ? undefined : filled + pull.odMetres ** 2;
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
    title: 'Pulls, run by run',
    columns: [
      { title: 'Run, bore', share: 25 },
      { title: 'Pull', share: 6 },
      { title: 'Cable', share: 10 },
      { title: 'From and to', share: 32 },
      { title: 'Enters first', share: 26 },
      { title: 'Outside', share: 11 },
      { title: 'Bore left', share: 10 },
      { title: 'Surplus, coiled at', share: 22 },
    ],
    rows,
  };
}

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

/** Conductors of each joint that is made by hand: direct current and serial lines. Colours by IEC 60757 codes. */
export function coreTable(facts: Facts): Table {
  const { analysis, numbering } = facts;
  // ABYC E-11; on boats under ISO 13297 the same is common practice, no source.
  const negative = 'YE or BK';
  const feeds = analysis.supply.edges.flatMap((edge) =>
    edge.legs.flatMap((leg) => {
      const cable = numbering.of(edge.origin) ?? '';
      return [
        [cable, 'L+', 'RD', edge.fromText, leg.to ?? leg.text],
        ['', 'L-', negative, 'negative of the supply', `negative of ${leg.text}`],
      ];
    }),
  );
  const serial = analysis.links.flatMap(({ link, medium, a, b }) => {
    if (medium !== 'nmea0183') return [];
    const talksA = a?.port.serial?.talksBaud !== undefined;
    const [from, to] = talksA ? [a, b] : [b, a];
    const single = from?.port.serial?.signalling === 'single';
    const text = (end: typeof a): string =>
      end === undefined ? 'not settled' : `${end.device}.${end.port.name}`;
    return [
      [
        numbering.of(link.origin) ?? '',
        'A',
        'not given',
        `${text(from)} ${single ? 'data out' : 'A out'}`,
        `${text(to)} A in`,
      ],
      ['', 'B', 'not given', `${text(from)} ${single ? 'ground' : 'B out'}`, `${text(to)} B in`],
    ];
  });
  return {
    title: 'Cores, joint by joint',
    columns: [
      { title: 'Cable', share: 10 },
      { title: 'Core', share: 8 },
      { title: 'Colour', share: 14 },
      { title: 'From terminal', share: 40 },
      { title: 'To terminal', share: 40 },
    ],
    rows: [...feeds, ...serial],
  };
}
