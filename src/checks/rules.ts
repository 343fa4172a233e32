/** The registry: every rule there is, for waivers, documentation and reports. */
import { CHECKS } from './registered.js';
import { groupOf, type RuleInfo } from './rule.js';

function floor(code: string, summary: string): RuleInfo {
  return { code, group: groupOf(code), severities: ['error'], summary, waivable: false };
}

/** What the language itself reports while it reads a spec. None of it can be waived. */
const LANGUAGE: readonly RuleInfo[] = [
  floor('syntax', 'The text is not a spec.'),
  floor('encoding', 'The file is not UTF-8.'),
  floor('limit/file-size', 'A file is larger than the tool reads.'),
  floor('limit/nesting', 'Blocks are nested deeper than the tool reads.'),
  floor('limit/findings', 'There are more errors in one file than are reported.'),
  floor('limit/port-range', 'A range of ports is larger than any device has.'),
  floor('type/dimension', 'A quantity has the wrong dimension.'),
  floor('type/unit', 'A unit is missing or unknown.'),
  floor('type/value-range', 'A quantity has a value that no boat has.'),
  floor('type/duplicate', 'A name is declared twice.'),
  floor('type/unknown-name', 'A name is not declared.'),
  floor('type/class-property', 'A model lacks a property that its class needs, or has one that it cannot.'),
  floor('use/not-found', 'A use names no file.'),
  floor('use/outside-root', 'A use leads out of the root.'),
  floor('use/no-vessel', 'A fragment is aboard nothing.'),
];

/** What is said of options themselves; see vessel/options. */
const OPTIONS: readonly RuleInfo[] = [
  floor('option/clash', 'Edits of an option, or of two that are chosen together, contradict each other.'),
  floor('option/no-effect', 'An edit of an option finds nothing to do it to.'),
];

/** What is looked for apart from the checks, since it takes a solver; see design/cheaper.ts. */
const SEARCHED: readonly RuleInfo[] = [
  {
    code: 'choice/cheaper',
    group: 'choice',
    severities: ['information'],
    summary: 'The same needs can be met for less.',
    waivable: true,
    apart: true,
  },
];

/** What is said of waivers themselves; see waivers/waivers.ts. */
const WAIVERS: readonly RuleInfo[] = [
  {
    code: 'allow/unused',
    group: 'allow',
    severities: ['warning'],
    summary: 'A waiver waives nothing.',
    waivable: false,
  },
  {
    code: 'allow/expired',
    group: 'allow',
    severities: ['warning'],
    summary: 'A waiver is past its date.',
    waivable: false,
  },
  {
    code: 'allow/unknown',
    group: 'allow',
    severities: ['error'],
    summary: "A waiver names no rule, or one that can't be waived.",
    waivable: false,
  },
];

/** Every rule, by code. */
export const RULES: readonly RuleInfo[] = [...LANGUAGE, ...OPTIONS, ...CHECKS, ...SEARCHED, ...WAIVERS].sort(
  (x, y) => (x.code < y.code ? -1 : 1),
);

const BY_CODE: ReadonlyMap<string, RuleInfo> = new Map(RULES.map((rule) => [rule.code, rule]));

/** A rule by its code. */
export function findRule(code: string): RuleInfo | undefined {
  return BY_CODE.get(code);
}
