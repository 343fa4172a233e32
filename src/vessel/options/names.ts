/** Which devices an element of a vessel names, and what an element is called in a message. */
import type { BackboneItem, Conductor, End, Need, View } from '../model.js';

export function* devicesOfEnds(ends: readonly (End | undefined)[]): Iterable<string> {
  for (const end of ends) if (end?.device !== undefined) yield end.device;
}

function* devicesOfConductor(conductor: Conductor): Iterable<string> {
  for (const { at } of conductor.protections) if (at !== undefined) yield at;
}

/** Devices that hang on a backbone at an item. */
export function* devicesOfItem(item: BackboneItem): Iterable<string> {
  switch (item.kind) {
    case 'terminator':
      if (item.in !== undefined) yield item.in;
      return;
    case 'tee':
      yield* devicesOfEnds([item.end, ...item.branches.map((branch) => branch.end)]);
      return;
    case 'tap':
      yield* devicesOfEnds([item.from]);
      yield* devicesOfConductor(item.conductor);
      return;
    case 'span':
    case 'isolate':
    case 'ground':
      return;
  }
}

/** Devices without which a need cannot hold; those that it wants switched off are none of them. */
export function devicesOfNeed(need: Need): readonly string[] {
  switch (need.kind) {
    case 'show':
      return [...need.screens, ...need.wanted.flatMap(({ device }) => device ?? [])];
    case 'hear':
      return need.devices;
    case 'last':
      return [...(need.bank === undefined ? [] : [need.bank]), ...need.cranks];
    case 'spare':
      return need.on;
    case 'cost':
      return [];
  }
}

export function devicesOfView(view: View): readonly string[] {
  return [
    ...(view.screen === undefined ? [] : [view.screen]),
    ...view.panes.flatMap((pane) => pane.layers.flatMap(({ device }) => device ?? [])),
  ];
}

/** `hub.1`, or `hub` where the port is left to the tool. */
export function endText({ device, port }: End): string {
  return port === undefined ? (device ?? '?') : `${device ?? '?'}.${port}`;
}
