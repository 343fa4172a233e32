/** Hover on models, cables and families. */
import type { Cable, Family, Model } from '../../../vessel/model.js';
import { inUnit } from '../../../vessel/units.js';
import { count, listOf } from '../../../vessel/words.js';
import { bold, code, escape, metres, portFacts, price, rows, type Card } from './card.js';

export function modelCard(model: Model, doc: string | undefined): Card {
  const lines: string[] = [];
  const facts = [
    model.title && escape(model.title),
    model.part && `part ${escape(model.part)}`,
    price(model.price),
  ].filter(Boolean);
  if (facts.length > 0) lines.push(facts.join(' · '));
  if (model.families.length > 0) lines.push(`Families: ${model.families.join(', ')}`);
  if (model.shows.length > 0) lines.push(`Shows ${model.shows.join(', ')}`);
  if (model.shares.length > 0) lines.push(`Shares ${model.shares.join(', ')}`);
  if (model.gives.length > 0)
    lines.push(`Gives ${model.gives.map((g) => `${g.signal}${g.grade ? ` ${g.grade}` : ''}`).join(', ')}`);
  if (model.wants.length > 0)
    lines.push(
      `Wants ${model.wants.map((w) => `${w.signal}${w.hertz === undefined ? '' : ` at ${w.hertz} Hz`}`).join(', ')}`,
    );
  if (model.bridges.length > 0) lines.push(`Bridges ${model.bridges.join(', ')} while powered`);
  if (model.ingress.length > 0) lines.push(model.ingress.join(', '));
  if (model.capacity)
    lines.push(
      `${inUnit(model.capacity.ampHours, 'Ah')}${model.volts === undefined ? '' : ` at ${model.volts} V`}${model.chemistry === undefined ? '' : `, ${model.chemistry}`}`,
    );
  const figures: string[] = [];
  if (model.screenMetres !== undefined) figures.push(`screen ${inUnit(model.screenMetres, 'in')}`);
  if (model.compassMetres !== undefined) figures.push(`${metres(model.compassMetres)} from a compass`);
  if (model.takesWatts !== undefined) figures.push(`takes ${inUnit(model.takesWatts, 'W')}`);
  if (model.carriesAmps !== undefined) figures.push(`carries ${inUnit(model.carriesAmps, 'A')}`);
  if (model.poeTotalWatts !== undefined)
    figures.push(`supplies ${inUnit(model.poeTotalWatts, 'W')} over ethernet`);
  if (model.teePorts !== undefined) figures.push(count(model.teePorts, 'drop'));
  if (model.lengthMetres !== undefined) figures.push(`adds ${metres(model.lengthMetres)}`);
  if (model.ignitionProtected) figures.push('ignition protected');
  if (figures.length > 0) lines.push(`Figures: ${figures.join(', ')}`);
  if (model.positions.length > 0)
    lines.push(
      `Positions ${model.positions.map((p) => (p.joins.length > 0 ? `${p.name} (${p.joins.join(' + ')})` : p.name)).join(', ')}`,
    );
  if (model.note !== undefined) lines.push(escape(model.note));
  if (model.ports.length > 0) lines.push('**Ports**', ...rows(portRows(model)));
  return { heading: `${bold(model.name)} : ${model.class}`, lines, doc };
}

/** Ports of a range in one row. */
function portRows(model: Model): string[] {
  const seen = new Set<string>();
  return model.ports.flatMap((port) => {
    if (seen.has(port.group)) return [];
    seen.add(port.group);
    return [`${code(port.group)} ${escape(portFacts(port))}`];
  });
}

export function cableCard(cable: Cable, doc: string | undefined): Card {
  const lines: string[] = [];
  const facts = [cable.title && escape(cable.title), cable.part && `part ${escape(cable.part)}`].filter(
    Boolean,
  );
  if (facts.length > 0) lines.push(facts.join(' · '));
  lines.push(cable.sealed ? 'Sealed: fit for wet places.' : 'Not sealed: for dry places.');
  const sizes: string[] = [];
  if (cable.odMetres !== undefined) sizes.push(`${inUnit(cable.odMetres, 'mm')} across`);
  if (cable.headMetres !== undefined) sizes.push(`its head ${inUnit(cable.headMetres, 'mm')}`);
  if (cable.longestMetres !== undefined) sizes.push(`at most ${metres(cable.longestMetres)}`);
  if (cable.carriesAmps !== undefined) sizes.push(`carries ${inUnit(cable.carriesAmps, 'A')}`);
  if (cable.ohmsPerMetre !== undefined)
    sizes.push(`${Number((cable.ohmsPerMetre * 1000).toPrecision(4))} ohm per km and conductor`);
  if (cable.size) sizes.push(`${cable.size.size} ${cable.size.standard}`);
  if (sizes.length > 0) lines.push(sizes.join(', '));
  for (const loss of cable.loss)
    lines.push(
      `${Number((loss.decibelsPerMetre * 100).toPrecision(4))} dB per 100 m at ${inUnit(loss.hertz, 'MHz')}`,
    );
  if (cable.stock.length > 0)
    lines.push(
      `Sold as ${cable.stock.map((s) => `${metres(s.lengthMetres)}${s.price ? ` at ${price(s.price) ?? ''}` : ''}`).join(', ')}`,
    );
  else
    lines.push(
      cable.pricePerMetre ? `Cut to length, ${price(cable.pricePerMetre) ?? ''} a metre.` : 'Cut to length.',
    );
  return { heading: `${bold(cable.name)} : ${cable.medium} cable`, lines, doc };
}

/** A family with the names of the models that are of it. */
export function familyCard(family: Family, members: readonly string[], doc: string | undefined): Card {
  const list = members.length > 0 ? `: ${listOf(members, 'and', 12)}` : '';
  return {
    heading: `family ${bold(family.name)}`,
    lines: [escape(family.title ?? ''), escape(`${count(members.length, 'model')}${list}`)],
    doc,
  };
}
