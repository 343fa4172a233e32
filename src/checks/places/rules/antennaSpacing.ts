import type { Device } from '../../../vessel/model.js';
import { metres, number } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import { rule, type Report } from '../../rule.js';
import { apart } from '../apart.js';

/** Between antennas of one band, and between a satellite receiver and a VHF antenna. Small craft practice, no source. */
const CLEAR_METRES = 1;
/** How far a radar's beam is to be kept clear. Small craft practice, no source. */
const BEAM_METRES = 2;
/** The beam's upper and lower half where the radar does not state it. Small craft practice, no source. */
const HALF_BEAM_DEGREES = 20;

type Kind = 'vhf' | 'gnss' | 'radar';

/** `place/antenna-spacing`: antennas too near to each other or in the beam of a radar, where offsets say where they are. */
export const antennaSpacing = rule(
  {
    code: 'place/antenna-spacing',
    severities: ['warning', 'information'],
    summary: 'Antennas stand too near to each other, or in the beam of a radar.',
  },
  (context, report) => {
    const placed = context.vessel.devices.flatMap((device) => {
      const kind =
        device.leaving || device.offsetMetres === undefined ? undefined : kindOf(context, device.name);
      return kind === undefined ? [] : [{ device, kind }];
    });
    placed.forEach((first, index) => {
      for (const second of placed.slice(index + 1)) {
        const kinds = [first.kind, second.kind];
        if (kinds.includes('radar')) {
          const [radar, other] = first.kind === 'radar' ? [first, second] : [second, first];
          if (other.kind !== 'radar') judgeBeam(context, radar.device, other.device, report);
        } else if (kinds.includes('vhf')) judgePair(context, first.device, second.device, kinds, report);
      }
    });
  },
);

/** VHF and AIS share a band. */
function kindOf({ lookup }: Context, name: string): Kind | undefined {
  const model = lookup.modelOf(name);
  if (model?.class === 'radar') return 'radar';
  if (model?.class === 'gnss') return 'gnss';
  if (model?.class !== 'antenna') return undefined;
  const services = model.ports.map((port) => port.service);
  if (services.some((service) => service === 'vhf' || service === 'ais')) return 'vhf';
  return services.includes('gnss') ? 'gnss' : undefined;
}

function judgePair(
  { lookup }: Context,
  first: Device,
  second: Device,
  kinds: readonly Kind[],
  report: Report,
): void {
  const { offset, atLeastMetres } = apart(lookup, first, second);
  if (atLeastMetres >= CLEAR_METRES - 1e-9) return;
  const at = { origin: second.origin };
  if (offset === undefined) {
    report.unknown(at, `how far ${second.name} is from ${first.name}, which is in another zone`);
    return;
  }
  const same = !kinds.includes('gnss');
  const why = same
    ? 'each deafens the other while it sends, and bends its pattern'
    : 'what the radio sends may drown the satellites';
  report.find({
    severity: same ? 'warning' : 'information',
    message: `${second.name} is ${metres(atLeastMetres)} from ${first.name}, and ${same ? 'antennas of one band' : 'a satellite receiver and a VHF antenna'} are kept ${metres(CLEAR_METRES)} apart: ${why}. Move one of them ${metres(CLEAR_METRES - atLeastMetres)} further away.`,
    at,
    related: [{ at: { origin: first.origin }, message: `${first.name} is here` }],
  });
}

function judgeBeam({ lookup }: Context, radar: Device, other: Device, report: Report): void {
  const { offset, atLeastMetres } = apart(lookup, radar, other);
  const at = { origin: other.origin };
  if (offset === undefined) {
    if (atLeastMetres < BEAM_METRES)
      report.unknown(at, `where ${other.name} is from ${radar.name}, which is in another zone`);
    return;
  }
  const [forward, starboard, up] = offset;
  const across = Math.hypot(forward, starboard);
  const stated = lookup.modelOf(radar.name)?.beamDegrees;
  const half = Math.max(HALF_BEAM_DEGREES, (stated ?? 0) / 2);
  const angle = (Math.atan2(Math.abs(up), across) * 180) / Math.PI;
  if (across >= BEAM_METRES || angle > half) return;
  report.find({
    severity: 'information',
    message: `${other.name} stands in the beam of ${radar.name}: ${metres(across)} aside and ${number(angle, 0)} degrees from its level, and ${metres(BEAM_METRES)} within ${number(half, 0)} degrees are kept clear. It shadows the radar, and gets its pulses at close range. Move it above or below the beam, or further away.`,
    at,
    related: [{ at: { origin: radar.origin }, message: `${radar.name} is here` }],
  });
}
