/** Where the pages about the rules lie. */
import { existsSync, realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';

/**
 * Finds the page of a rule from the running program: the extension's server and the terminal program both lie two folders
 * below the folder that holds `docs`.
 * @param program the path of the program's file
 * @returns for a rule's code the URI of its page, or undefined where the pages are not installed
 */
export function rulePages(program: string): (rule: string) => string | undefined {
  const folder = join(dirname(realpathSync(program)), '..', '..', 'docs', 'rules');
  const known = new Map<string, string | undefined>();
  return (rule) => {
    if (!known.has(rule)) {
      const page = join(folder, `${rule}.md`);
      known.set(rule, existsSync(page) ? pathToFileURL(page).href : undefined);
    }
    return known.get(rule);
  };
}
