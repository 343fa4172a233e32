import type { ListKind } from './listing.js';

export const COVERAGE: ListKind = {
  what: 'coverage',
  summary: 'which devices and links a need exercises, and which none does',
  columns: [
    { field: 'kind', title: 'Kind', type: 'string', values: ['device', 'link'], text: 'What it is.' },
    { field: 'name', title: 'Name', type: 'string', text: "The device's name, or the link's two ends." },
    { field: 'covered', title: 'Covered', type: 'boolean', text: 'Whether a need exercises it.' },
    { field: 'by', title: 'By', type: 'strings', text: 'The needs that do.' },
  ],
  list: ({ analysis }) => {
    const { device: devices, link: links } = analysis.coverage();
    const covered = (all: readonly { readonly covered: boolean }[]): string =>
      `${all.filter((one) => one.covered).length} of ${all.length}`;
    return {
      rows: [
        ...devices.map(({ name, covered, by }) => ({ kind: 'device', name, covered, by })),
        ...links.map(({ id, covered, by }) => ({ kind: 'link', name: id, covered, by })),
      ],
      summary: `The needs exercise ${covered(devices)} devices and ${covered(links)} links.`,
    };
  },
};
