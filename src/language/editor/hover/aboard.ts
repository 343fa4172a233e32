/** Hover on the vessel, its backbones and feeds, and on what is told best as it is written: modes, days, options. */
import { CstUtils, type AstNode } from 'langium';
import type { Analysis } from '../../../checks/analysis.js';
import type { Feed, Protection } from '../../../vessel/model.js';
import { sizeText } from '../../../vessel/conductors/sizes.js';
import { inUnit } from '../../../vessel/units.js';
import { count } from '../../../vessel/words.js';
import * as ast from '../../generated/ast.js';
import { dayLines, feedLines, modeLines } from './power.js';
import { bold, code, escape, rows, type Card } from './card.js';

export function vesselCard(analysis: Analysis, doc: string | undefined): Card {
  const { vessel, needs, counts } = analysis;
  const judged = needs.filter((need) => need.met !== null);
  const open = needs.length - judged.length;
  const size = [
    count(vessel.zones.length, 'zone'),
    count(vessel.devices.length, 'device'),
    count(vessel.links.length, 'link'),
    count(vessel.feeds.length, 'feed'),
  ];
  return {
    heading: `vessel ${bold(vessel.name)}`,
    lines: [
      escape(vessel.title ?? ''),
      size.join(', '),
      `${judged.filter((need) => need.met).length} of ${count(judged.length, 'need')} met${open > 0 ? `, ${open} not judged` : ''}`,
      `${count(counts.error, 'error')}, ${count(counts.warning, 'warning')}, ${counts.unknown} unknown`,
    ],
    doc,
  };
}

/** A feed: which ports, and how its conductor is made and protected as written. */
export function feedCard(origin: string, analysis: Analysis, doc: string | undefined): Card | undefined {
  const wired = analysis.feeds.find((w) => w.feed.origin === origin);
  if (!wired) return undefined;
  const end = (e: { device: string; port: { name: string } } | undefined): string =>
    e ? `${e.device}.${e.port.name}` : 'not settled';
  const { feed } = wired;
  return {
    heading: `feed ${bold(end(wired.from))} to ${wired.to.map((to) => bold(end(to))).join(', ')}`,
    lines: [
      escape(feed.wayLabel ?? ''),
      `${protectionText(feed)} ${wireText(feed)}`,
      ...feedLines(origin, analysis),
    ],
    doc,
  };
}

function protectionText(feed: Feed): string {
  if (feed.cranking) return 'A starter conductor: no fuse is asked.';
  if (feed.protections.length > 0) return `${feed.protections.map(deviceText).join('. ')}.`;
  return feed.protectedUpstream ? 'Covered by what protects it upstream.' : 'Fuse left to the tool.';
}

function deviceText({ device, amps, type, at, afterMetres }: Protection): string {
  const rating = amps === undefined ? '' : ` ${inUnit(amps, 'A')}`;
  const where = at === undefined ? '' : ` at ${escape(at)}`;
  const after = afterMetres === undefined ? '' : ` after ${inUnit(afterMetres, 'mm')}`;
  return `${device === 'fuse' ? 'Fuse' : 'Breaker'}${rating}${type === undefined ? '' : ` ${escape(type)}`}${where}${after}`;
}

function wireText(feed: Feed): string {
  if (feed.wire) return `Wire ${sizeText(feed.wire)}.`;
  return feed.cable === undefined ? 'Wire left to the tool.' : `Wire: ${escape(feed.cable)}.`;
}

/** A mode, a day or an option, item by item as it is written. */
export function writtenCard(
  node: ast.ModeDecl | ast.DayDecl | ast.OptionDecl,
  analysis: Analysis | undefined,
  doc: string | undefined,
): Card {
  const [kind, items] = ast.isModeDecl(node)
    ? (['mode', node.duties] as const)
    : ast.isDayDecl(node)
      ? (['day', node.parts] as const)
      : (['option', node.edits] as const);
  const title = ast.isOptionDecl(node) ? node.title : undefined;
  const worked =
    analysis === undefined || ast.isOptionDecl(node)
      ? []
      : (ast.isModeDecl(node) ? modeLines : dayLines)(node.name, analysis);
  return {
    heading: `${kind} ${bold(node.name)}`,
    lines: [escape(title ?? ''), ...rows(items.map((item) => code(asWritten(item)))), ...worked],
    doc,
  };
}

/** The text of a node in one line, without the comments in it. */
function asWritten(node: AstNode): string {
  if (!node.$cstNode) return '';
  let [text, end] = ['', node.$cstNode.offset];
  for (const leaf of CstUtils.flattenCst(node.$cstNode)) {
    if (leaf.hidden) continue;
    text += leaf.offset > end ? ` ${leaf.text}` : leaf.text;
    end = leaf.end;
  }
  return text;
}

/** A position of a switch: what it joins. */
export function positionCard(node: ast.PositionDecl): Card {
  const joins = node.joins.map((port) => port.$refText);
  return {
    heading: `position ${bold(node.name)}`,
    lines: [joins.length > 0 ? `Joins ${escape(joins.join(' + '))}.` : ''],
  };
}
