/** One line about each thing that is offered. */
import type { Cable, Model, Money, Port } from '../../../vessel/model.js';
import { mediumText } from '../../../vessel/mediumText.js';
import { count, metres, millimetres, number } from '../../../vessel/words.js';
import type * as ast from '../../generated/ast.js';
import type { DeviceAboard } from './boat.js';

/** Joins what there is to say. */
export const joined = (...pieces: readonly (string | false | undefined)[]): string =>
  pieces.filter((piece) => piece !== undefined && piece !== false && piece !== '').join(', ');

const price = (money: Money | undefined): string | undefined =>
  money && `${number(money.amount)} ${money.currency}`;

/** `display, 13-inch display, 1899 USD` */
export const modelDetail = (model: Model): string => joined(model.class, model.title, price(model.price));

/** `Tern13 at helm` */
export function deviceDetail({ node }: DeviceAboard): string {
  const models = node.models.map((model) => model.$refText).join(' or ');
  const zone = node.zone?.$refText;
  return zone === undefined ? models : `${models} at ${zone}`;
}

/** `ethernet, sealed, 2 m to 12 m` */
export function cableDetail(cable: Cable): string {
  const lengths = cable.stock.map((stock) => stock.lengthMetres);
  const first = lengths[0];
  const last = lengths.at(-1);
  return joined(
    cable.title,
    mediumText(cable.medium),
    cable.sealed && 'sealed',
    first !== undefined && last !== undefined
      ? first === last
        ? metres(first)
        : `${metres(first)} to ${metres(last)}`
      : 'cut to length',
    cable.odMetres !== undefined && `od ${millimetres(cable.odMetres)}`,
  );
}

/** `exposed, aft 0.8 m` */
export const zoneDetail = (zone: ast.ZoneDecl): string =>
  joined(
    zone.exposure?.$refText,
    ...zone.clauses.map((clause) => clause.$cstNode?.text.replace(/\s+/g, ' ')),
  );

/** `bow -- transom, 8 m` */
export const runDetail = (run: ast.RunDecl): string =>
  joined(
    `${run.from?.$refText ?? '?'} -- ${run.to?.$refText ?? '?'}`,
    run.length?.$cstNode?.text.replace(/\s+/g, ' '),
    run.conduit ? 'conduit' : run.loom && 'loom',
  );

/** Medium and features: `transducer, accepts hd, 600 W`. */
export function portDetail(port: Port): string {
  const { dc, serial } = port;
  return joined(
    port.medium === 'own' && port.ownPlug !== undefined ? `own "${port.ownPlug}"` : mediumText(port.medium),
    port.service,
    port.sealed && 'sealed',
    port.accepts && `accepts ${port.accepts}`,
    port.outputWatts !== undefined && `${number(port.outputWatts)} W`,
    port.captive &&
      `captive ${port.captive.lengthMetres === undefined ? 'tail' : metres(port.captive.lengthMetres)}`,
    port.withPower && 'with power',
    port.len !== undefined && `len ${port.len}`,
    port.terminates && 'terminates',
    serial?.talksBaud !== undefined && `talks ${serial.talksBaud || ''}`.trim(),
    serial?.listensBaud !== undefined && `listens ${serial.listensBaud || ''}`.trim(),
    serial?.signalling,
    port.poe && `poe ${port.poe.role}`,
    dc?.direction,
    dc?.inVolts && `${number(dc.inVolts.low)} to ${number(dc.inVolts.high)} V`,
    dc?.outVolts !== undefined && `${number(dc.outVolts)} V`,
    dc?.draws && `draws ${number(dc.draws.amount)} ${dc.draws.unit}`,
    dc?.cranks && `cranks ${number(dc.cranks.amps)} A`,
    dc?.max && `max ${number(dc.max.amount)} ${dc.max.unit}`,
    dc?.fuseAmps !== undefined && `fuse ${number(dc.fuseAmps)} A`,
    dc !== undefined && dc.holds.length > 0 && `holds ${dc.holds.join(' or ')}`,
  );
}

const SHOWN = 3;

/** `net1 and net2 free`, `6 free` where there are many. */
export function freePorts(ports: readonly Port[]): string {
  if (ports.length > SHOWN) return `${count(ports.length, 'port')} free`;
  return `${ports.map((port) => port.name).join(', ')} free`;
}
