/** Carries a design out in the text: small edits that leave comments and everything else where they are. */
import { AstUtils, type AstNode } from 'langium';
import { textOf, type Design, type Plugged } from '../../checks/design/design.js';
import type { Link, Vessel } from '../../vessel/model.js';
import type { Place } from '../../vessel/origin.js';
import { headEnd, type PlaceTable } from '../lowering/places.js';
import type { Fix } from '../project/report.js';
import { wholeLines } from './edits.js';

type Edit = Fix['edits'][number];

/** The edits of a design, which do not overlap. */
export function designEdits(design: Design, vessel: Vessel, places: PlaceTable): readonly Edit[] {
  const edits: Edit[] = [];
  const replace = (origin: string, part: string, text: string): void => {
    const place = places.nodeOf(origin) && places.find({ origin, part });
    if (place) edits.push({ place, text });
  };
  const remove = (origin: string): void => {
    const node = places.nodeOf(origin);
    if (node) edits.push({ place: wholeLines(node, true), text: '' });
  };
  for (const { device, to } of design.exchanges) replaceModels(device, to);
  for (const { link, end, plug } of design.replugged) replace(link.origin, end, textOf(plug));

  const { moved, gone, made } = paired(design);
  for (const [link, plugged] of moved) {
    const node = places.nodeOf(link.origin);
    const place = node && headOf(node);
    if (place) edits.push({ place, text: linkText(plugged) });
  }
  for (const link of gone) remove(link.origin);
  const dropped = new Set(design.dropped);
  for (const device of vessel.devices) if (dropped.has(device.name)) remove(device.origin);
  for (const feed of vessel.feeds) {
    const kept = feed.to.flatMap((end, index) =>
      end.device !== undefined && dropped.has(end.device) ? [] : [index],
    );
    if (kept.length === feed.to.length) continue;
    if (kept.length === 0) remove(feed.origin);
    else {
      const ends = feed.to.map((_, index) => places.find({ origin: feed.origin, part: `b ${index}` }));
      const [first] = ends;
      const last = ends.at(-1);
      if (!first || !last) continue;
      edits.push({
        place: { file: first.file, range: { start: first.range.start, end: last.range.end } },
        text: kept
          .flatMap((index) => {
            const end = feed.to[index];
            return end?.device === undefined ? [] : [textOf({ device: end.device, port: end.port })];
          })
          .join(', '),
      });
    }
  }
  const declare = (origins: readonly string[], lines: readonly string[]): void => {
    const node = [...origins].reverse().flatMap((origin) => places.nodeOf(origin) ?? [])[0];
    if (lines.length === 0 || node?.$cstNode === undefined) return;
    // Behind the line, with the comment that may end it.
    const { textDocument, uri } = AstUtils.getDocument(node);
    const text = textDocument.getText();
    const newline = text.indexOf('\n', node.$cstNode.end);
    const at = textDocument.positionAt(newline < 0 ? text.length : newline);
    edits.push({
      place: { file: uri.toString(), range: { start: at, end: at } },
      text: lines.map((line) => `\n${line}`).join(''),
    });
  };
  const devices = vessel.devices.map((device) => device.origin);
  declare(
    devices,
    design.added.map(
      ({ device, model, zone }) =>
        `device ${device} : ${model.name}${zone === undefined ? '' : ` at ${zone}`}`,
    ),
  );
  const links = vessel.links.map((link) => link.origin);
  declare(links.length > 0 ? links : devices, made.map(linkText));
  const feeds = vessel.feeds.map((feed) => feed.origin);
  declare(
    feeds.length > 0 ? feeds : devices,
    design.added.flatMap(({ device, way }) => (way === undefined ? [] : [`feed ${way} -> ${device}`])),
  );
  return edits;

  function replaceModels(name: string, to: string): void {
    const device = vessel.devices.find((one) => one.name === name);
    if (!device) return;
    const ends = device.models.flatMap(
      (_, index) => places.find({ origin: device.origin, part: `model ${index}` }) ?? [],
    );
    const [first] = ends;
    const last = ends.at(-1);
    if (first && last)
      edits.push({
        place: { file: first.file, range: { start: first.range.start, end: last.range.end } },
        text: to,
      });
  }
}

/** A cable that is led elsewhere is written where it was: so its comment stays with it. */
function paired(design: Design): {
  readonly moved: readonly (readonly [Link, Plugged])[];
  readonly gone: readonly Link[];
  readonly made: readonly Plugged[];
} {
  const left = [...design.unplugged];
  const moved: [Link, Plugged][] = [];
  const made: Plugged[] = [];
  for (const plugged of design.plugged) {
    const names = [plugged.a.device, plugged.b.device];
    const at = left.findIndex((link) =>
      [link.a.device, link.b.device].some((name) => name !== undefined && names.includes(name)),
    );
    const [link] = at < 0 ? [] : left.splice(at, 1);
    if (link === undefined) made.push(plugged);
    else moved.push([link, plugged]);
  }
  return { moved, gone: left, made };
}

function linkText({ a, b, cable }: Plugged): string {
  return `link ${textOf(a)} -- ${textOf(b)}${cable === undefined ? '' : ` using ${cable}`}`;
}

function headOf(node: AstNode): Place | undefined {
  const start = node.$cstNode?.range.start;
  const end = headEnd(node)?.range.end;
  return start && end && { file: AstUtils.getDocument(node).uri.toString(), range: { start, end } };
}
