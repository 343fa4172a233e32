/** Hover on zones, runs and links. */
import type { Analysis, CableRun } from '../../../checks/analysis.js';
import type { Run, Zone } from '../../../vessel/model.js';
import { inUnit } from '../../../vessel/units.js';
import { bold, escape, metres, rows, type Card } from './card.js';
import { linkLines } from './lines.js';

export function zoneCard(zone: Zone, analysis: Analysis, doc: string | undefined): Card {
  const { vessel } = analysis;
  const lines: string[] = [];
  const exposure = zone.exposure;
  if (exposure) {
    const asks = exposure.asks.length > 0 ? `asks ${exposure.asks.join(' and ')}` : 'asks no code';
    const harm = exposure.wet ? '; an open connector takes harm' : '';
    lines.push(escape(`${exposure.name}: ${asks}${harm}${exposure.hot ? '; engine-space ambient' : ''}.`));
  }
  const facts: string[] = [];
  if (zone.aftMetres !== undefined) facts.push(`${metres(zone.aftMetres)} aft`);
  if (zone.heightMetres !== undefined) facts.push(`${metres(zone.heightMetres)} above the water`);
  if (zone.side !== undefined) facts.push(zone.side);
  if (zone.deck !== undefined) facts.push(escape(`${zone.deck} deck`));
  if (zone.fuel !== undefined)
    facts.push(zone.fuel === 'petrol' ? 'petrol vapour may collect: ignition protection is asked' : 'diesel');
  if (facts.length > 0) lines.push(facts.join(', '));
  const inside = vessel.devices.filter((device) => device.zone === zone.name);
  if (inside.length > 0)
    lines.push(
      '**In it**',
      ...rows(inside.map((device) => escape(`${device.name} : ${device.models.join(' or ')}`))),
    );
  const runs = vessel.runs.filter((run) => run.from === zone.name || run.to === zone.name);
  if (runs.length > 0) lines.push('**Runs**', ...rows(runs.map((run) => escape(runText(run, zone.name)))));
  return { heading: `zone ${bold(zone.name)}`, lines, doc };
}

function runText(run: Run, from: string): string {
  const other = run.from === from ? run.to : run.from;
  return `to ${other}, ${run.lengthMetres === undefined ? 'length not said' : metres(run.lengthMetres)}${run.name === undefined ? '' : ` (${run.name})`}`;
}

export function runCard(run: Run, analysis: Analysis, doc: string | undefined): Card {
  const along = analysis.cables.filter((cable) => cable.runs.includes(run));
  const way = run.conduit
    ? `conduit${run.conduitMetres === undefined ? '' : `, bore ${inUnit(run.conduitMetres, 'mm')}`}`
    : run.loom
      ? 'loom'
      : 'open run';
  const lines = [`${run.lengthMetres === undefined ? 'Length not said' : metres(run.lengthMetres)}, ${way}.`];
  if (along.length > 0)
    lines.push('**Cables along it**', ...rows(along.map((cable) => cableText(cable, analysis))));
  return { heading: `run ${bold(run.name ?? `${run.from} -- ${run.to}`)}`, lines, doc };
}

function cableText(cable: CableRun, analysis: Analysis): string {
  const od = cable.cable === undefined ? undefined : analysis.vessel.cables[cable.cable]?.odMetres;
  return `${escape(cable.id)}${cable.cable === undefined ? '' : `, ${cable.cable}`}${od === undefined ? '' : `, ${inUnit(od, 'mm')}`}`;
}

/** A link: which ports, which cable, how long, what is bought. */
export function linkCard(origin: string, analysis: Analysis, doc: string | undefined): Card | undefined {
  const wired = analysis.links.find((w) => w.link.origin === origin);
  const cable = analysis.cables.find((c) => c.link.origin === origin);
  if (!wired) return undefined;
  const end = (e: { device: string; port: { name: string } } | undefined): string =>
    e ? `${e.device}.${e.port.name}` : 'not settled';
  const lines = [wired.medium ?? ''];
  if (cable) lines.push(...lengthText(cable));
  lines.push(...linkLines(origin, analysis));
  return { heading: `link ${bold(end(wired.a))} to ${bold(end(wired.b))}`, lines, doc };
}

/** How a link's length came about and what is bought for it, a sentence each. */
export function lengthText(cable: CableRun): string[] {
  const lines: string[] = [];
  if (cable.zones.length > 1) lines.push(`${wayText(cable)}.`);
  if (cable.neededMetres !== undefined)
    lines.push(
      `Needs ${metres(cable.neededMetres)}${cable.statedMetres === undefined ? ', slack at both ends included' : ' (stated)'}.`,
    );
  if (cable.captiveMetres !== undefined) lines.push(`Its tail has ${metres(cable.captiveMetres)}.`);
  if (cable.pieces.length > 0)
    lines.push(
      `Bought: ${cable.pieces.map(metres).join(' + ')}${cable.cable === undefined ? '' : ` of ${cable.cable}`}.`,
    );
  else if (cable.captiveMetres === undefined)
    lines.push(cable.cable === undefined ? 'Its cable is not said.' : `${cable.cable}, cut to length.`);
  if (cable.unknown !== undefined) lines.push(`Length not known: ${escape(cable.unknown)}.`);
  return lines;
}

/** "Runs bow → helm → cabin: 5.5 m + 2 m". */
function wayText({ zones, runs }: CableRun): string {
  const way = `Runs ${zones.join(' → ')}`;
  const lengths = runs.flatMap((run) => (run.lengthMetres === undefined ? [] : [metres(run.lengthMetres)]));
  return lengths.length > 0 && lengths.length === runs.length ? `${way}: ${lengths.join(' + ')}` : way;
}
