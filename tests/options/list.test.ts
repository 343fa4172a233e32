/** Options side by side: each row is the vessel with that option, priced by its own parts. */
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { OPTIONS } from '../../src/cli/list/options.js';
import { openProject } from '../../src/language/project/open.js';

const folder = fileURLToPath(new URL('../../examples', import.meta.url));

it('options are listed beside their base, with what each costs more or less', async () => {
  const { report } = await openProject([`${folder}/motoryacht`], { root: folder, today: '2026-11-25' });
  const [base, ...variants] = report.vessels;
  if (!base) throw new Error('there is no vessel');
  const { rows } = OPTIONS.list(base, (spot) => base.places.find(spot), report.vessels);
  expect(rows.map(({ option }) => option)).toEqual([null, 'owner', 'instrument', 'light', 'chain']);
  const sum = (parts: ReturnType<typeof base.analysis.parts>): number =>
    parts.reduce((total, line) => total + (line.existing ? 0 : (line.totalPrice ?? 0)), 0);
  const before = sum(base.analysis.parts());
  variants.forEach(({ analysis }, index) => {
    const more = Math.round((sum(analysis.parts()) - before) * 100) / 100;
    const said = rows[index + 1]?.['difference'];
    expect(said).toBe(
      more === 0 ? 'same price in USD' : `${Math.abs(more)} USD ${more > 0 ? 'more' : 'less'}`,
    );
  });
  expect(new Set(rows.map(({ difference }) => difference)).size).toBe(rows.length);
});
