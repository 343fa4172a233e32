/**
 * Vessels with options laid over them, each with an analysis of its own, made when first asked for and kept until what it says changes.
 * None is made while somebody types: an editor asks for them when it is idle.
 */
import { AstUtils, type AstNode } from 'langium';
import { analyse } from '../../checks/analyse.js';
import type { Analysis } from '../../checks/analysis.js';
import { findingKey } from '../../checks/options/variant.js';
import type { OptionFault } from '../../vessel/options/model.js';
import { overlay } from '../../vessel/options/overlay.js';
import type { Place } from '../../vessel/origin.js';
import { sameData } from '../../vessel/same.js';
import * as ast from '../generated/ast.js';
import { lowerOptions, type LoweredOption } from '../lowering/options.js';
import { PlaceTable } from '../lowering/places.js';
import type { Problem } from '../project/report.js';
import type { Analyses, VesselAnalysis } from './analyses.js';
import { problemOf } from './problems.js';

export interface VariantAnalysis {
  /** Names of its options, with commas between. */
  readonly name: string;
  readonly options: readonly LoweredOption[];
  readonly analysis: Analysis;
  readonly places: PlaceTable;
  /** What the base does not have: found inside the option, or said at the option's name. */
  readonly problems: readonly Problem[];
}

interface Kept {
  readonly base: Analysis;
  readonly faults: readonly OptionFault[];
  readonly analysis: Analysis;
}

export class Variants {
  private readonly lowered = new WeakMap<VesselAnalysis, readonly LoweredOption[]>();
  private readonly kept = new Map<string, Kept>();
  private readonly made = new WeakMap<VesselAnalysis, Map<string, VariantAnalysis>>();
  /** How many times a vessel with an option was really analysed; for tests of what is done again. */
  runs = 0;
  /** Called when options were analysed while nobody typed. */
  onAnalysed: () => void = () => undefined;

  constructor(private readonly analyses: Analyses) {}

  /** The options of a vessel, in the order of the text. */
  optionsOf(base: VesselAnalysis): readonly LoweredOption[] {
    let options = this.lowered.get(base);
    if (!options) {
      this.lowered.set(base, (options = lowerOptions(base.closure, base.places)));
      this.forget(base, options);
    }
    return options;
  }

  /** The vessel with each of its options by itself. */
  each(base: VesselAnalysis): readonly VariantAnalysis[] {
    return this.optionsOf(base).map((option) => this.of(base, [option]));
  }

  alone(base: VesselAnalysis, option: LoweredOption): VariantAnalysis {
    return this.of(base, [option]);
  }

  /** The vessel with the option that a node stands in, and no other; undefined outside of options. */
  around(node: AstNode, base: VesselAnalysis): VariantAnalysis | undefined {
    const container = AstUtils.getContainerOfType(node, ast.isOptionDecl);
    const option = container && this.optionsOf(base).find((one) => one.node === container);
    return option && this.of(base, [option]);
  }

  /** The vessel with several options. They take the order of the text, whatever order they are named in. */
  together(base: VesselAnalysis, names: ReadonlySet<string>): VariantAnalysis | undefined {
    const options = this.optionsOf(base).filter(({ option }) => names.has(option.name));
    return options.length === 0 ? undefined : this.of(base, options);
  }

  /** As each was last analysed, with today's places; one that never was is left out. For while somebody types. */
  last(base: VesselAnalysis): readonly VariantAnalysis[] {
    return this.optionsOf(base).flatMap((option) => {
      const kept = this.kept.get(keyOf(base, [option]));
      return kept ? [variantOf([option], kept.analysis, kept.base)] : [];
    });
  }

  /** An option that was renamed or removed leaves nothing behind. */
  private forget(base: VesselAnalysis, options: readonly LoweredOption[]): void {
    const names = new Set(options.map(({ option }) => option.name));
    for (const key of this.kept.keys()) {
      const [root, ...chosen] = key.split('\n');
      if (root === base.closure.root && !chosen.every((name) => names.has(name))) this.kept.delete(key);
    }
  }

  private of(base: VesselAnalysis, options: readonly LoweredOption[]): VariantAnalysis {
    const key = keyOf(base, options);
    const made = this.made.get(base) ?? new Map<string, VariantAnalysis>();
    this.made.set(base, made);
    const known = made.get(key);
    if (known) return known;
    const variant = variantOf(options, this.analysisOf(key, base, options), base.analysis);
    made.set(key, variant);
    return variant;
  }

  private analysisOf(key: string, base: VesselAnalysis, options: readonly LoweredOption[]): Analysis {
    const { vessel, faults } = overlay(
      base.analysis.vessel,
      options.map(({ option }) => option),
    );
    const before = this.kept.get(key);
    // The same base analysis means the same day and the same base findings.
    if (
      before?.base === base.analysis &&
      sameData(before.faults, faults) &&
      sameData(before.analysis.vessel, vessel)
    )
      return before.analysis;
    this.runs++;
    const analysis = analyse(vessel, {
      today: this.analyses.today(),
      variant: { options: options.map(({ option }) => option), base: base.analysis.findings, faults },
    });
    this.kept.set(key, { base: base.analysis, faults, analysis });
    return analysis;
  }
}

const keyOf = (base: VesselAnalysis, options: readonly LoweredOption[]): string =>
  [base.closure.root, ...options.map(({ option }) => option.name)].join('\n');

function variantOf(options: readonly LoweredOption[], analysis: Analysis, base: Analysis): VariantAnalysis {
  const places = new PlaceTable(options.map((option) => option.places));
  const name = options.map(({ option }) => option.name).join(', ');
  const known = new Set(base.findings.map(findingKey));
  const problems = analysis.findings
    .filter((finding) => !known.has(findingKey(finding)))
    .map((finding): Problem => {
      const place = places.find(finding.at);
      const problem = { ...problemOf(finding, place ?? NOWHERE, places), option: name, unused: false };
      const inside = (edit: Place): boolean => options.some((option) => isInside(edit, option));
      const fixes = problem.fixes.filter((fix) => fix.edits.every((edit) => inside(edit.place)));
      const [first] = options;
      const at = first && places.find({ origin: first.option.origin });
      if ((place && inside(place)) || !at) return { ...problem, fixes };
      return {
        ...problem,
        fixes,
        place: at,
        related: [...(place ? [{ place, message: 'this is where it is found' }] : []), ...problem.related],
      };
    });
  return { name, options, analysis, places, problems };
}

const NOWHERE: Place = {
  file: '',
  range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
};

function isInside({ file, range }: Place, { places, node, option }: LoweredOption): boolean {
  const around = node.$cstNode?.range;
  if (!around || places.find({ origin: option.origin })?.file !== file) return false;
  const { start, end } = around;
  const notBefore =
    range.start.line > start.line ||
    (range.start.line === start.line && range.start.character >= start.character);
  const notAfter =
    range.end.line < end.line || (range.end.line === end.line && range.end.character <= end.character);
  return notBefore && notAfter;
}
