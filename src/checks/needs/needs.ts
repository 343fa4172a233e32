/** Needs, checked like tests. */
import type { Medium, Need, Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { devicesOfNeed } from '../../vessel/options/names.js';
import { count, listOf, times } from '../../vessel/words.js';
import type { NeedResult, PartLine, Shown, ViewAnswer } from '../analysis.js';
import type { DataWant, Hearing } from '../data/data.js';
import type { Energy } from '../power/energy/energy.js';
import type { Sharing } from '../sharing/sharing.js';
import { dcDirection } from '../wiring/fit.js';
import type { Wiring } from '../wiring/wiring.js';
import { judgeCost } from './cost.js';
import { shown } from './wanted.js';

type Judgement = Pick<NeedResult, 'met' | 'reason' | 'answers'>;

/** What needs are judged by. */
export interface Judges {
  readonly lookup: Lookup;
  readonly wiring: Wiring;
  readonly sharing: Sharing;
  readonly hearing: Hearing;
  readonly energy: Energy;
  /** The parts list; without it no price is judged. */
  readonly parts?: () => readonly PartLine[];
}

/** Judge every need of a vessel. */
export function computeNeeds(vessel: Vessel, judges: Judges): readonly NeedResult[] {
  return vessel.needs.map((need, index) => ({
    index,
    spot: { origin: need.origin },
    text: needText(need),
    ...judge(need, vessel, judges),
  }));
}

function judge(
  need: Need,
  vessel: Vessel,
  { lookup, wiring, sharing, hearing, energy, parts }: Judges,
): Judgement {
  const gone = devicesOfNeed(need).find((device) => vessel.absent.includes(device));
  if (gone !== undefined) return { met: false, reason: `${gone} is taken out`, answers: [] };
  switch (need.kind) {
    case 'show':
      return judgeShow(need, sharing);
    case 'hear':
      return judgeHear(need, sharing, hearing);
    case 'spare':
      return judgeSpare(need, vessel, lookup, wiring);
    case 'last':
      return { ...energy.lasting(need), answers: [] };
    case 'cost':
      return parts === undefined
        ? { met: null, reason: 'it is not asked of a failure', answers: [] }
        : { ...judgeCost(need, vessel, parts()), answers: [] };
  }
}

function judgeShow(need: Need & { readonly kind: 'show' }, sharing: Sharing): Judgement {
  const off = new Set(need.without);
  const parts = need.screens.flatMap((screen) =>
    need.wanted.map((wanted) => ({
      who: `${screen} does not show ${wanted.text}`,
      part: shown(sharing, screen, wanted, off),
    })),
  );
  return together(parts, need.incomplete);
}

function judgeHear(need: Need & { readonly kind: 'hear' }, sharing: Sharing, hearing: Hearing): Judgement {
  const parts = need.devices.flatMap((device) =>
    need.signals.map((signal) => {
      const want = hearing.of(device, signal);
      return {
        who: `${device} does not hear ${signal}${want.verdict === 'slow' ? ' often enough' : ''}`,
        part: heard(sharing, want),
      };
    }),
  );
  return together(parts, need.incomplete);
}

/** A signal at a device: by the way that counts, and as often as the device wants it. */
function heard(sharing: Sharing, want: DataWant): Shown {
  const { device, signal, verdict, used, wantedHertz } = want;
  if (used !== undefined) {
    const answers = [used.answer];
    if (verdict === 'met') return { visible: true, answers, reason: null };
    if (verdict === 'unknown') return { visible: null, answers, reason: want.reason };
    const reason = `${used.source} brings it ${times(used.hertz ?? 0)} a second (${used.path.join(' -> ')}), and ${device} wants it ${times(wantedHertz ?? 0)}`;
    return { visible: false, answers, reason };
  }
  let failed: ViewAnswer | undefined;
  let open: ViewAnswer | undefined;
  for (const one of sharing.sourcesOf(signal, device)) {
    const answer = sharing.hears(device, one.source, one.signal);
    if (answer.visible === null) open ??= answer;
    else failed ??= answer;
  }
  const deciding = verdict === 'unknown' ? (open ?? failed) : failed;
  const visible = verdict === 'unknown' ? null : false;
  if (deciding === undefined) return { visible, answers: [], reason: want.reason };
  // Where a display may share it, that is what is not known, though the direct way is known to fail.
  const reason = visible === deciding.visible ? deciding.reason : want.reason;
  return { visible, answers: [deciding], reason };
}

function together(
  parts: readonly { readonly who: string; readonly part: Shown }[],
  incomplete: boolean,
): Judgement {
  const answers = parts.flatMap(({ part }) => part.answers);
  const failed = parts.filter(({ part }) => part.visible === false);
  if (failed.length > 0) {
    const [first] = failed;
    const others =
      failed.length > 1
        ? `; ${count(failed.length - 1, 'more part')} of it ${failed.length === 2 ? 'fails' : 'fail'} as well`
        : '';
    return {
      met: false,
      reason: `${first?.who ?? ''}: ${first?.part.reason ?? 'no reason is known'}${others}`,
      answers,
    };
  }
  const open = parts.find(({ part }) => part.visible === null);
  if (open !== undefined) return { met: null, reason: open.part.reason, answers };
  if (incomplete) return { met: null, reason: 'some name in it is not declared', answers };
  return { met: true, reason: null, answers };
}

function judgeSpare(
  need: Need & { readonly kind: 'spare' },
  vessel: Vessel,
  lookup: Lookup,
  wiring: Wiring,
): Judgement {
  const { medium } = need;
  if (medium === undefined || need.incomplete)
    return { met: null, reason: 'some name in it is not declared', answers: [] };
  const where =
    need.on.length > 0
      ? need.on
      : vessel.devices.filter((device) => !device.leaving).map((device) => device.name);
  const blind = where.find((name) => lookup.device(name) !== undefined && lookup.modelOf(name) === undefined);
  // On a backbone it is the tees that are spare; a device's own port is not a place for another device.
  const all =
    medium === 'nmea2000'
      ? cappedTees(need.on, vessel)
      : where.flatMap((name) => freePorts(name, medium, lookup, wiring));
  if (all.length >= need.count) return { met: true, reason: null, answers: [] };
  if (blind !== undefined) return { met: null, reason: `the model of ${blind} is not declared`, answers: [] };
  const on = need.on.length > 0 ? ` on ${listOf(need.on)}` : '';
  const found =
    all.length === 0
      ? 'none is free'
      : `only ${all.length} ${all.length === 1 ? 'is' : 'are'} free (${listOf(all)})`;
  return { met: false, reason: `${found}${on}`, answers: [] };
}

function freePorts(name: string, medium: Medium, lookup: Lookup, wiring: Wiring): readonly string[] {
  return (lookup.modelOf(name)?.ports ?? [])
    .filter((port) => port.medium === medium && (medium !== 'dc' || dcDirection(port) === 'out'))
    .filter((port) => wiring.useOf(name, port.name).length === 0)
    .map((port) => `${name}.${port.name}`);
}

/** A capped tee is a spare place on a backbone. */
function cappedTees(on: readonly string[], vessel: Vessel): readonly string[] {
  return vessel.backbones
    .filter((backbone) => on.length === 0 || on.includes(backbone.name))
    .flatMap((backbone) =>
      backbone.items
        .filter((item) => item.kind === 'tee' && item.end === undefined && item.branches.length === 0)
        .map((_, index) => `capped tee ${index + 1} of ${backbone.name}`),
    );
}

/** A need as a sentence. */
function needText(need: Need): string {
  switch (need.kind) {
    case 'show': {
      const without = need.without.length > 0 ? ` without ${need.without.join(', ')}` : '';
      return `${need.screens.join(', ')} show ${need.wanted.map((wanted) => wanted.text).join(', ')}${without}`;
    }
    case 'hear':
      return `${need.devices.join(', ')} hear ${need.signals.join(', ')}`;
    case 'last':
      return `${need.bank ?? 'a bank'} last ${need.seconds === undefined ? 'some time' : `${String(need.seconds / 3600)} h`}${need.mode === undefined ? '' : ` in ${need.mode}`}${need.cranks.length > 0 ? ` and crank ${need.cranks.join(', ')}` : ''}`;
    case 'spare':
      return `spare ${need.count} ${need.medium ?? 'ports'}${need.on.length > 0 ? ` on ${need.on.join(', ')}` : ''}`;
    case 'cost':
      return `cost under ${need.under === undefined ? 'some amount' : `${String(need.under.amount)} ${need.under.currency}`}`;
  }
}
