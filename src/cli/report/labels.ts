/** Labels for a page: two to a row, since there are many and each is short. */
import { labelList, type LabelRow } from '../../documents/schedules/schedules.js';
import type { Block } from '../../documents/report/report.js';
import type { VesselReport } from '../../language/project/report.js';
import { count } from '../../vessel/words.js';

const TITLES = ['No.', 'At', 'Zone', 'Goes to'];

export function labelBlocks({ analysis }: VesselReport): readonly Block[] {
  const labels = labelList(analysis);
  if (labels.length === 0) return [];
  const cells = ({ number, at, zone, other }: LabelRow): readonly string[] => [number, at, zone ?? '', other];
  // The second half beside the first, so that each column is read downwards in the order of the numbers.
  const half = Math.ceil(labels.length / 2);
  const rows = labels.slice(0, half).map((label, index) => {
    const beside = labels[half + index];
    return [...cells(label), ...(beside === undefined ? TITLES.map(() => '') : cells(beside))];
  });
  return [
    { kind: 'table', columns: [...TITLES, ...TITLES].map((title) => ({ title })), rows },
    {
      kind: 'text',
      text: `${count(labels.length, 'label')}, one for each end of each cable. For a label printer they are the sheet Labels of schedules.xlsx.`,
    },
  ];
}
