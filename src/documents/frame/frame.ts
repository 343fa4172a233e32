/** The frame of a sheet with its reference zones and centring marks, after ISO 5457. */
import { FRAME, lineItem, NARROW, rectItem, textItem, WIDE } from '../scene/make.js';
import type { GroupItem, Item } from '../scene/scene.js';
import { zoneEdges, zoneLetter, type Paper } from './paper.js';

/** Width of the strip that the zones are named in. */
const STRIP = 5;
const CAPITALS = 3.5;

/** Frame, zones and marks, as one group that no reader is told of. */
export function frameGroup(paper: Paper, sheetId: string): GroupItem {
  const { frame, width, height } = paper;
  const right = frame.x + frame.width;
  const bottom = frame.y + frame.height;
  const outer = {
    x: frame.x - STRIP,
    y: frame.y - STRIP,
    width: frame.width + 2 * STRIP,
    height: frame.height + 2 * STRIP,
  };
  const items: Item[] = [rectItem(outer, NARROW), rectItem(frame, FRAME)];
  const columns = zoneEdges(frame.x, right, width / 2);
  columns.forEach((edge, index) => {
    const next = columns[index + 1];
    if (next === undefined) return;
    const middle = (edge + next) / 2;
    if (index > 0) {
      items.push(
        lineItem(edge, frame.y - STRIP, edge, frame.y),
        lineItem(edge, bottom, edge, bottom + STRIP),
      );
    }
    for (const y of [frame.y - 0.75, bottom + STRIP - 0.75])
      items.push(textItem(middle, y, String(index + 1), { height: CAPITALS, anchor: 'middle' }));
  });
  const rows = zoneEdges(frame.y, bottom, height / 2);
  rows.forEach((edge, index) => {
    const next = rows[index + 1];
    if (next === undefined) return;
    const middle = (edge + next) / 2 + CAPITALS / 2;
    if (index > 0) {
      items.push(lineItem(frame.x - STRIP, edge, frame.x, edge), lineItem(right, edge, right + STRIP, edge));
    }
    for (const x of [frame.x - STRIP / 2, right + STRIP / 2])
      items.push(textItem(x, middle, zoneLetter(index), { height: CAPITALS, anchor: 'middle' }));
  });
  const mark = STRIP + 2;
  items.push(
    lineItem(width / 2, frame.y - STRIP, width / 2, frame.y - STRIP + mark, WIDE),
    // Inside the frame the caution begins here.
    lineItem(width / 2, bottom + STRIP, width / 2, bottom, WIDE),
    lineItem(frame.x - STRIP, height / 2, frame.x - STRIP + mark, height / 2, WIDE),
    lineItem(right + STRIP, height / 2, right + STRIP - mark, height / 2, WIDE),
  );
  return { kind: 'group', id: `${sheetId}-frame`, role: 'frame', name: 'frame', label: 'Frame', items };
}
