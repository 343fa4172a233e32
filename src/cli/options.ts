/** Reads `--with NAME,...`: the options of a vessel that are chosen together. */
import { nearest } from '../language/naming/nearest.js';
import { listOf } from '../vessel/words.js';
import { quoted } from './terminal/arguments.js';
import type { Invocation } from './terminal/command.js';
import { printable } from './terminal/printable.js';
import { UsageError } from './terminal/world.js';

/** The names after `--with`, or undefined where it is not given. */
export function chosenOptions(invocation: Invocation): ReadonlySet<string> | undefined {
  const value = invocation.value('with');
  if (value === undefined) return undefined;
  const names = value.split(',').map((name) => name.trim().normalize('NFC'));
  if (names.includes(''))
    throw new UsageError(`--with wants names with commas between, not ${quoted(value)}.`);
  return new Set(names);
}

/** The vessels of a report, as far as their options go. */
interface WithOptions {
  readonly vessels: readonly { readonly options: readonly { readonly name: string }[] }[];
}

/** @throws UsageError where no vessel has an option of that name; nothing to say where there is no vessel */
export function checkChosen(names: ReadonlySet<string>, report: WithOptions): void {
  if (report.vessels.length === 0) return;
  const known = [...new Set(report.vessels.flatMap(({ options }) => options.map(({ name }) => name)))];
  for (const name of names) {
    if (known.includes(name)) continue;
    const near = nearest(name, known);
    const hint =
      near !== undefined
        ? `Did you mean ${printable(near)}?`
        : known.length === 0
          ? 'No option is declared here.'
          : `There ${known.length === 1 ? 'is' : 'are'} ${listOf(known.map(printable), 'and', 12)}.`;
    throw new UsageError(`There is no option ${quoted(name)}. ${hint}`);
  }
}
