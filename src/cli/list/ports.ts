import { count } from '../../vessel/words.js';
import type { ListKind } from './listing.js';

export const PORTS: ListKind = {
  what: 'ports',
  summary: 'every port of every device, and what is on it',
  columns: [
    { field: 'device', title: 'Device', type: 'string', text: 'The device that has the port.' },
    { field: 'port', title: 'Port', type: 'string', text: 'Its name.' },
    { field: 'medium', title: 'Medium', type: 'string', text: 'What it carries.' },
    {
      field: 'plug',
      title: 'Plug',
      type: 'string',
      ifNull: '',
      text: "The maker's own plug of a port of medium own; null for any other.",
    },
    { field: 'sealed', title: 'Sealed', type: 'boolean', text: 'Whether its connector is sealed.' },
    { field: 'free', title: 'Free', type: 'boolean', text: 'Whether nothing is on it.' },
    { field: 'on', title: 'On it', type: 'strings', text: 'The other ends of what is on it.' },
  ],
  list: ({ analysis }) => {
    const rows = analysis.ports.map(({ device, port, on }) => ({
      device,
      port: port.name,
      medium: port.medium,
      plug: port.ownPlug ?? null,
      sealed: port.sealed,
      free: on.length === 0,
      on: on.map((one) => one.what),
    }));
    const free = rows.filter((row) => row.free).length;
    return { rows, summary: `${count(rows.length, 'port')}, ${free} free.` };
  },
};
