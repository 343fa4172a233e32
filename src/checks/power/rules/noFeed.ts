import type { Device, Model, Port } from '../../../vessel/model.js';
import { compareText, listOf } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import type { Repair } from '../../finding.js';
import { rule } from '../../rule.js';
import { dcDirection } from '../../wiring/fit.js';
import { terminalId } from '../supply/banks.js';
import { ampsText } from './text.js';

/**
 * `power/no-feed`: a device with a dc input has no feed. A spec without a single feed leaves its supply out, and is told so once.
 */
export const noFeed = rule(
  { code: 'power/no-feed', severities: ['error'], summary: 'A device with a dc input has no feed.' },
  (context, report) => {
    const { vessel, lookup, wiring } = context;
    const takers: Device[] = [];
    const open = vessel.feeds.flatMap((feed) => feed.to.filter((end) => end.device === undefined));
    const named = new Set(vessel.feeds.flatMap((feed) => feed.to.flatMap((end) => end.device ?? [])));
    for (const device of vessel.devices) {
      const model = lookup.modelOf(device.name);
      if (model === undefined || device.leaving || lookup.device(device.name) !== device) continue;
      const isFed = (port: Port): boolean => wiring.useOf(device.name, port.name).length > 0;
      if (model.ports.some((port) => (port.powered || port.poe?.role === 'wants') && isFed(port))) continue;
      const inputs = model.ports.filter(
        (port) => port.medium === 'dc' && (dcDirection(port) === 'in' || port.dc?.cranks !== undefined),
      );
      const unfed = inputs.filter((port) => !isFed(port));
      // An engine's starter and its computer are two things; of the inputs of others one is enough.
      const lacking = model.class === 'engine' || unfed.length === inputs.length ? unfed : [];
      const [port] = lacking;
      if (port === undefined) continue;
      if (vessel.feeds.length === 0) {
        takers.push(device);
        continue;
      }
      // A feed to it whose port is not settled has its own finding.
      if (named.has(device.name) && lacking.length === inputs.length) continue;
      const at = { origin: device.origin };
      if (open.length > 0) {
        report.unknown(at, `a feed ends at something that is not declared, which may be ${device.name}`);
        continue;
      }
      for (const one of model.class === 'engine' ? lacking : [port]) {
        const way = freeWay(context, one);
        const whence =
          way === undefined
            ? 'Feed it from a panel, a busbar or a battery'
            : `Feed it from a free way, such as ${way}`;
        report.find({
          message: `${device.name} has no feed: ${dead(device, model, one)}. ${whence}, or mark it "leaving" if it comes out.`,
          at,
          repairs: way === undefined ? [] : [feedFrom(way, device, model, one)],
        });
      }
    }
    if (takers.length > 0)
      report.unknown(
        { origin: vessel.origin },
        `no feed is declared, and ${listOf(
          takers.map((device) => device.name).sort(compareText),
          'and',
          3,
        )} ${takers.length === 1 ? 'takes' : 'take'} direct current`,
      );
  },
);

function dead(device: Device, model: Model, port: Port): string {
  if (port.dc?.cranks !== undefined) return `nothing turns its starter at ${device.name}.${port.name}`;
  if (model.class === 'panel' || model.class === 'chargesplitter')
    return `nothing comes to ${device.name}.${port.name}, so that what it feeds stays dark`;
  return `its port ${port.name} takes direct current, and without it the device stays dark`;
}

/** A way that nothing is on, of a panel that is supplied at a voltage that suits. */
function freeWay({ supply, wiring }: Context, port: Port): string | undefined {
  if (port.dc?.cranks !== undefined) return undefined;
  const takes = port.dc?.inVolts;
  const panels = [...supply.terminals.values()]
    .filter((terminal) => terminal.kind === 'port')
    .sort((x, y) => compareText(x.device, y.device));
  for (const terminal of panels) {
    if (terminal.model.class !== 'panel') continue;
    const { device, port: way } = terminal;
    if (dcDirection(way) !== 'out' || wiring.useOf(device, way.name).length > 0) continue;
    const volts = supply.systemOf(terminal.id)?.volts;
    if (volts === undefined) continue;
    if (takes !== undefined && (volts.low < takes.low || volts.high > takes.high)) continue;
    const most = way.dc?.max;
    if (most?.unit === 'A' && (port.dc?.fuseAmps ?? 0) > most.amount) continue;
    return terminal.id;
  }
  return undefined;
}

function feedFrom(way: string, device: Device, model: Model, port: Port): Repair {
  const inputs = model.ports.filter((one) => one.medium === 'dc' && dcDirection(one) !== 'out');
  const end = inputs.length === 1 ? device.name : terminalId(device.name, port.name);
  const fuse = port.dc?.fuseAmps === undefined ? '' : `fuse ${ampsText(port.dc.fuseAmps)}`;
  const text = `feed ${way} -> ${end}${fuse === '' ? '' : ` ${fuse}`}`;
  return {
    title: `Feed ${device.name} from ${way}`,
    preferred: true,
    change: { kind: 'declare', after: { origin: device.origin }, text },
  };
}
