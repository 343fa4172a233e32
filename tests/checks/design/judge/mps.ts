/** A program written out in the free MPS format (a plain table of rows, columns, right sides and bounds), which every solver reads. */
import type { Program } from '../../../../src/checks/design/program.js';

export function mpsOf({ columns, rows }: Program): string {
  const lines = ['NAME design FREE', 'ROWS', ' N cost'];
  const right: string[] = [];
  const ranges: string[] = [];
  rows.forEach(({ lower, upper }, number) => {
    const name = `r${number}`;
    if (lower === -Infinity && upper === Infinity) lines.push(` N ${name}`);
    else if (lower === upper) lines.push(` E ${name}`);
    else if (lower === -Infinity) lines.push(` L ${name}`);
    else lines.push(` G ${name}`);
    const side = lower === -Infinity ? upper : lower;
    if (Number.isFinite(side) && side !== 0) right.push(` RHS ${name} ${side}`);
    if (Number.isFinite(lower) && Number.isFinite(upper) && lower !== upper)
      ranges.push(` RNG ${name} ${upper - lower}`);
  });
  const entries: string[][] = columns.map(({ cost }) => (cost === 0 ? [] : [`cost ${cost}`]));
  rows.forEach(({ terms }, number) => {
    for (const [column, factor] of terms) entries[column]?.push(`r${number} ${factor}`);
  });
  lines.push('COLUMNS');
  // Whole numbers stand between markers.
  let whole = false;
  const mark = (): void => {
    whole = !whole;
    lines.push(` MARK 'MARKER' '${whole ? 'INTORG' : 'INTEND'}'`);
  };
  columns.forEach(({ integer }, number) => {
    if (integer !== whole) mark();
    const own = entries[number] ?? [];
    for (const entry of own.length > 0 ? own : ['cost 0']) lines.push(` x${number} ${entry}`);
  });
  if (whole) mark();
  lines.push('RHS', ...right);
  if (ranges.length > 0) lines.push('RANGES', ...ranges);
  lines.push('BOUNDS');
  columns.forEach(({ lower, upper }, number) => {
    lines.push(` LO BND x${number} ${lower}`);
    lines.push(upper === Infinity ? ` PL BND x${number}` : ` UP BND x${number} ${upper}`);
  });
  return `${[...lines, 'ENDATA'].join('\n')}\n`;
}
