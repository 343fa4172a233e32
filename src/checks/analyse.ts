/** The one analysis of a vessel. */
import type { Vessel } from '../vessel/model.js';
import type { Analysis } from './analysis.js';
import { createContext } from './context.js';
import { computeCoverage } from './usage/coverage.js';
import type { Counts, Finding, Unknown } from './finding.js';
import { computeFailures } from './failures/failures.js';
import { createMargins } from './power/circuit/margins.js';
import { createPanels } from './power/panels/panels.js';
import { prospectiveAtTerminal } from './power/protection/prospective.js';
import { feedResults } from './power/sizing/feeds.js';
import { CHECKS } from './registered.js';
import { once } from './once.js';
import { findRule } from './rules.js';
import { faultFindings, type Variant } from './options/variant.js';
import { applyWaivers } from './waivers/waivers.js';

export interface AnalyseOptions {
  /** ISO date on which waivers are judged. */
  readonly today: string;
  /** For a vessel with options laid over it. */
  readonly variant?: Variant | undefined;
}

/** Check a vessel. Total: it reports on any vessel, however incomplete, and throws on none. */
export function analyse(vessel: Vessel, options: AnalyseOptions): Analysis {
  const context = createContext(vessel);
  const found: Finding[] = [];
  const unknowns: Unknown[] = [];
  for (const check of CHECKS) {
    const outcome = check.run(context);
    found.push(...outcome.findings);
    unknowns.push(...outcome.unknowns);
  }
  const { variant } = options;
  if (variant) found.push(...faultFindings(variant.faults));
  const { findings } = applyWaivers(vessel, found, options.today, findRule, variant);
  return {
    vessel,
    links: context.wiring.links,
    feeds: context.wiring.feeds,
    backbones: context.wiring.backbones,
    buses: context.buses,
    lines: context.lines,
    supply: context.supply,
    sizing: context.sizing,
    passages: context.passages,
    get ports() {
      return context.wiring.ports;
    },
    segments: context.ethernet.segments,
    cables: context.cables,
    needs: context.needs,
    panes: context.panes,
    findings,
    unknowns,
    rulesRun: CHECKS.length,
    counts: count(findings, unknowns),
    answer: context.sharing.answer,
    standsFor: (device) => context.sharing.standsFor(device, undefined),
    sources: context.sharing.sources,
    screens: context.sharing.screens,
    power: {
      feeds: once(() => feedResults(context)),
      marginAt: createMargins(context),
      panel: createPanels(context, (device) => context.lookup.modelOf(device)),
      shortCircuitAt: (terminal) =>
        prospectiveAtTerminal(
          { vessel, supply: context.supply, protection: context.sizing.protection },
          terminal,
          context.sizing.sizeOf,
        ),
    },
    data: context.hearing.wants,
    coverage: once(() => computeCoverage(context)),
    parts: context.parts,
    failures: once(() => computeFailures(context)),
    loads: context.loads,
    energy: context.energy,
  };
}

function count(findings: readonly Finding[], unknowns: readonly Unknown[]): Counts {
  const open = findings.filter((finding) => finding.waived === null);
  const of = (severity: Finding['severity']): number =>
    open.filter((finding) => finding.severity === severity).length;
  return {
    error: of('error'),
    warning: of('warning'),
    information: of('information'),
    waived: findings.length - open.length,
    unknown: unknowns.length,
  };
}
