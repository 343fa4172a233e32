import type { Analysis } from '../../checks/analysis.js';
import { drawAmps } from '../../checks/power/loads/consumers.js';
import { averageAmps, type TerminalLoad } from '../../checks/power/loads/load.js';
import type { Mode } from '../../vessel/model.js';
import { count } from '../../vessel/words.js';
import { rounded } from './feeds.js';
import type { ListKind, Row } from './listing.js';

export const LOADS: ListKind = {
  what: 'loads',
  summary: 'what each device draws in each mode, and from which bank',
  columns: [
    {
      field: 'device',
      title: 'Device',
      type: 'string',
      text: 'The device, or the backbone for what it powers.',
    },
    { field: 'terminal', title: 'At', type: 'string', text: 'The port by which it draws.', only: 'data' },
    {
      field: 'mode',
      title: 'Mode',
      type: 'string',
      ifNull: '',
      text: 'The mode; null where no mode is declared and everything is on.',
    },
    {
      field: 'state',
      title: 'State',
      type: 'string',
      values: ['on', 'standby', 'off'],
      text: 'Whether the mode switches it on; on standby where it does not and the model says what it then draws.',
    },
    {
      field: 'typicalAmps',
      title: 'A',
      type: 'number',
      ifNull: 'unknown',
      text: 'What it draws usually when it is on; null where it is not known.',
    },
    {
      field: 'maxAmps',
      title: 'Max A',
      type: 'number',
      ifNull: 'unknown',
      text: 'The most that it draws; null where it is not known.',
    },
    {
      field: 'dutyPercent',
      title: 'Duty %',
      type: 'number',
      text: 'Share of the time for which it runs.',
    },
    {
      field: 'maxDutyPercent',
      title: 'At max %',
      type: 'number',
      text: 'Share of the time for which it runs at its most.',
    },
    {
      field: 'averageAmps',
      title: 'Average A',
      type: 'number',
      ifNull: 'unknown',
      text: 'Average in the mode, at the nominal voltage where it draws power; null where it is not known.',
    },
    {
      field: 'banks',
      title: 'Bank',
      type: 'strings',
      text: 'The banks that carry it as the switches stand; empty where none does, or where it is not known.',
    },
    {
      field: 'missing',
      title: 'Missing',
      type: 'string',
      ifNull: '',
      text: 'The fact that is missing where a figure is, or where it is no more than the least; null where none is.',
    },
  ],
  list: ({ analysis }) => {
    const { loads } = analysis;
    const rows = loads.modes.flatMap((mode) => {
      const banks = banksIn(analysis, mode);
      return loads
        .loadsIn(mode)
        .all.filter(({ state, kind }) => kind === 'device' || state !== 'off')
        .map((load) => row(analysis, load, mode, banks));
    });
    const unknown = rows.filter(({ missing }) => missing !== null).length;
    return {
      rows,
      summary: `${count(rows.length, 'load')} in ${count(loads.modes.length, 'mode')}: ${unknown} with something unknown.`,
    };
  },
};

function banksIn(analysis: Analysis, mode: Mode | undefined): ReadonlyMap<string, readonly string[]> {
  const banks = new Map<string, string[]>();
  for (const { bank, carries } of analysis.energy.flowsIn(mode))
    for (const { load } of carries)
      banks.set(load.terminal, [...(banks.get(load.terminal) ?? []), bank.device]);
  return banks;
}

function row(
  analysis: Analysis,
  load: TerminalLoad,
  mode: Mode | undefined,
  banks: ReadonlyMap<string, readonly string[]>,
): Row {
  const volts = analysis.supply.systemOf(load.terminal)?.nominalVolts;
  const amps = (value: number | undefined): number | null => rounded(value, 3);
  const average = averageAmps(load, volts);
  return {
    device: load.device,
    terminal: load.terminal,
    mode: mode?.name ?? null,
    state: load.state,
    typicalAmps: amps(drawAmps(load.typical, volts)),
    maxAmps: amps(drawAmps(load.maximum, volts)),
    dutyPercent: rounded(load.duty * 100, 1),
    maxDutyPercent: rounded(load.maxDuty * 100, 1),
    averageAmps: load.missing === undefined ? amps(average) : null,
    banks: banks.get(load.terminal) ?? [],
    missing:
      load.missing ??
      (average === undefined && load.state !== 'off' ? `the voltage of ${load.terminal} is not known` : null),
  };
}
