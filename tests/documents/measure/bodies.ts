/** What is wrong with boxes, signs, regions and blocks: on one another, or outside of the frame. */
import type { Parts } from './parts.js';
import { overlap, within } from './shapes.js';

export function bodyFaults(parts: Parts): readonly string[] {
  const { frame, extents, devices, zones, blocks, signs } = parts;
  const faults: string[] = extents
    .filter(({ rect }) => !within(rect, frame))
    .map(({ group, text }) => `${text === undefined ? group.name : `"${text}"`} is outside the frame`);
  devices.forEach((one, index) => {
    for (const other of devices.slice(index + 1))
      if (overlap(one.box, other.box))
        faults.push(`the boxes ${one.group.name} and ${other.group.name} overlap`);
    for (const block of blocks)
      if (overlap(one.box, block.box))
        faults.push(`the box ${one.group.name} stands on the ${block.group.name}`);
    for (const zone of zones)
      if (overlap(one.box, zone.box) && !within(one.box, zone.box))
        faults.push(`the box ${one.group.name} stands half in the zone ${zone.group.name}`);
    for (const sign of signs)
      if (overlap(one.box, sign.body))
        faults.push(`a sign of ${sign.group.name} is on the box ${one.group.name}`);
  });
  zones.forEach((one, index) => {
    for (const other of zones.slice(index + 1))
      if (overlap(one.box, other.box))
        faults.push(`the zones ${one.group.name} and ${other.group.name} overlap`);
    for (const block of blocks)
      if (overlap(one.box, block.box))
        faults.push(`the zone ${one.group.name} reaches into the ${block.group.name}`);
  });
  blocks.forEach((one, index) => {
    for (const other of blocks.slice(index + 1))
      if (one.group !== other.group && overlap(one.box, other.box))
        faults.push(`the ${one.group.name} is on the ${other.group.name}`);
    for (const sign of signs)
      if (overlap(one.box, sign.body))
        faults.push(`a sign of ${sign.group.name} is on the ${one.group.name}`);
  });
  signs.forEach((one, index) => {
    for (const other of signs.slice(index + 1))
      if (one.group !== other.group && overlap(one.body, other.body))
        faults.push(`signs of ${one.group.name} and ${other.group.name} overlap`);
  });
  return faults;
}
