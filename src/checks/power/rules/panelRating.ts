import { compareText, number } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import { rule, type Report } from '../../rule.js';
import { dcDirection } from '../../wiring/fit.js';
import { terminalId } from '../supply/banks.js';
import type { SupplyEdge, Terminal } from '../supply/graph.js';
import { demandOf } from '../loads/demand.js';
import { ampsText, fittedSpot, fittedText } from './text.js';

/** `power/panel-rating`: a panel, a busbar or a way carries more than its rating. The maker's figures; common practice, no source. */
export const panelRating = rule(
  {
    code: 'power/panel-rating',
    severities: ['error'],
    summary: 'A panel, a busbar or a way carries more than its rating.',
  },
  (context, report) => {
    const { vessel, supply, protection, lookup, loads } = context;
    const demand = demandOf(supply, protection, loads);
    for (const edge of supply.edges) {
      const way = edge.from === undefined ? undefined : supply.terminals.get(edge.from);
      if (way?.kind === 'port' && way.model.class === 'panel')
        judgeWay(context, report, edge, way, demand(way.id).amps);
    }
    for (const device of vessel.devices) {
      const model = lookup.modelOf(device.name);
      if (model?.class !== 'panel' && model?.class !== 'busbar') continue;
      const entry = model.ports.find((port) => port.medium === 'dc' && dcDirection(port) !== 'out');
      if (entry === undefined) continue;
      const { amps, mode, silent } = demand(terminalId(device.name, entry.name));
      const at = { origin: device.origin };
      if (amps === 0 && silent === undefined) continue;
      if (model.carriesAmps === undefined) {
        report.unknown(at, `${model.name} does not say what it carries`);
        continue;
      }
      if (amps > model.carriesAmps) {
        report.find({
          message: `${device.name} carries ${ampsText(model.carriesAmps)}, and what hangs on it draws ${number(amps, 1)} A${mode === undefined ? ' with everything on' : ` in mode ${mode.name}`}: it overheats. Use one that carries more, or move loads to another.`,
          at,
          related: [
            { at: { origin: model.origin }, message: `${model.name} carries ${ampsText(model.carriesAmps)}` },
          ],
        });
      } else if (silent !== undefined) {
        report.unknown(at, `${silent.device} hangs on ${device.name}, and ${silent.missing}`);
      }
    }
  },
);

function judgeWay(
  { supply }: Context,
  report: Report,
  edge: SupplyEdge,
  way: Terminal & { readonly kind: 'port' },
  demandAmps: number,
): void {
  const most = way.port.dc?.max;
  if (most?.unit !== 'A') return;
  const over = edge.devices.find((device) => device.end === 'from' && (device.amps ?? 0) > most.amount);
  const what = `the way ${way.id} carries at most ${ampsText(most.amount)}`;
  if (over === undefined && demandAmps <= most.amount) return;
  const free = freer([...supply.terminals.values()], way, Math.max(over?.amps ?? 0, demandAmps));
  const remedy = free === undefined ? 'Feed it from a busbar or the battery' : `Feed it from ${free}`;
  if (over !== undefined)
    report.find({
      message: `${what}, and ${fittedText(over)} lets more through: its contacts overheat before it opens. ${remedy}, or use a smaller rating.`,
      at: fittedSpot({ edge, device: over }),
    });
  else
    report.find({
      message: `${what}, and what hangs on it draws ${ampsText(demandAmps)}: it overheats. ${remedy}, or share the loads out over several ways.`,
      at: { origin: edge.origin, part: 'from' },
    });
}

/** A panel with ways that carry as much. */
function freer(
  terminals: readonly Terminal[],
  way: Terminal & { readonly kind: 'port' },
  amps: number,
): string | undefined {
  const ports = terminals
    .filter((one) => one.kind === 'port')
    .sort((x, y) => compareText(x.device, y.device));
  for (const one of ports) {
    if (one.model.class !== 'panel' || one.device === way.device) continue;
    const most = one.port.dc?.max;
    if (dcDirection(one.port) === 'out' && most?.unit === 'A' && most.amount >= amps)
      return `a way of ${one.device}`;
  }
  return undefined;
}
