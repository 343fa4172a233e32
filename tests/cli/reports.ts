/** Hand-made reports for tests of what the terminal prints; no language behind them. */
import { createContext } from '../../src/checks/context.js';
import type { Analysis, ViewAnswer } from '../../src/checks/analysis.js';
import type { Finding } from '../../src/checks/finding.js';
import type { Problem, ProjectReport, VesselReport } from '../../src/language/project/report.js';
import type { Device, Port, Vessel } from '../../src/vessel/model.js';
import type { Place, Places, Spot } from '../../src/vessel/origin.js';

/** The direct-current side of a boat that has none. */
export const NO_POWER: Analysis['power'] = {
  feeds: () => [],
  marginAt: () => undefined,
  panel: () => undefined,
  shortCircuitAt: () => ({ amps: 0, bound: undefined, banks: [], missing: undefined }),
};

export const FOLDER = '/boats';

export const fileUri = (name: string): string => `file://${FOLDER}/${name}`;

/** A place on one line. */
export function place(file: string, line: number, from: number, to: number): Place {
  return { file: fileUri(file), range: { start: { line, character: from }, end: { line, character: to } } };
}

export function problem(given: Partial<Problem> & Pick<Problem, 'rule' | 'place'>): Problem {
  return {
    severity: 'error',
    message: `${given.rule} holds.`,
    related: [],
    fixes: [],
    waived: null,
    unused: false,
    option: null,
    finding: undefined,
    ...given,
  };
}

/** Where things stand: by origin, and by origin and part. */
export function placesOf(table: Readonly<Record<string, Place>>): Places {
  return { find: ({ origin, part }: Spot) => table[`${origin} ${part ?? ''}`.trim()] ?? table[origin] };
}

/** A vessel of nothing but a name; what a test needs is given. */
export function vesselOf(given: Partial<Vessel> & Pick<Vessel, 'name'>): Vessel {
  return {
    origin: `vessel ${given.name}`,
    title: undefined,
    practice: undefined,
    currency: undefined,
    slackMetres: undefined,
    wiringCelsius: undefined,
    hull: undefined,
    aisTargets: undefined,
    labour: undefined,
    owner: undefined,
    yard: undefined,
    drawingNumber: undefined,
    revision: undefined,
    status: undefined,
    zones: [],
    runs: [],
    devices: [],
    links: [],
    feeds: [],
    backbones: [],
    needs: [],
    modes: [],
    days: [],
    views: [],
    negatives: [],
    preferences: [],
    waivers: [],
    models: {},
    cables: {},
    families: {},
    signals: {},
    fuseTypes: {},
    usedByOptions: [],
    option: undefined,
    absent: [],
    ...given,
  };
}

export function deviceOf(name: string, model: string, zone: string): Device {
  return {
    origin: `device ${name}`,
    name,
    models: [model],
    zone,
    back: undefined,
    existing: false,
    leaving: false,
    doc: undefined,
    note: undefined,
    series: undefined,
    parallel: undefined,
    offsetMetres: undefined,
    instance: undefined,
    normally: undefined,
    syncedWith: [],
  };
}

export function portOf(given: Partial<Port> & Pick<Port, 'name' | 'medium'>): Port {
  return {
    ownPlug: undefined,
    group: given.name,
    sealed: false,
    accepts: undefined,
    outputWatts: undefined,
    direction: undefined,
    len: undefined,
    terminates: false,
    serial: undefined,
    sends: [],
    dc: undefined,
    poe: undefined,
    captive: undefined,
    withPower: false,
    powered: false,
    service: undefined,
    ...given,
  };
}

/** The answers of a vessel as a table; what is not in it is not linked. */
export function analysisOf(
  given: Partial<Analysis> & Pick<Analysis, 'vessel'>,
  answers: readonly ViewAnswer[] = [],
): Analysis {
  const { supply, sizing, passages, loads, energy } = createContext(given.vessel);
  return {
    loads,
    energy,
    links: [],
    feeds: [],
    backbones: [],
    buses: [],
    lines: [],
    supply,
    sizing,
    passages,
    ports: [],
    segments: [],
    cables: [],
    needs: [],
    panes: [],
    findings: [],
    unknowns: [],
    rulesRun: 40,
    counts: { error: 0, warning: 0, information: 0, waived: 0, unknown: 0 },
    answer: (screen, source, signal) =>
      answers.find((one) => one.screen === screen && one.source === source && one.signal === signal) ?? {
        screen,
        source,
        signal,
        visible: false,
        verdict: 'not-linked',
        by: null,
        path: [],
        needsPowered: [],
        reason: `${source} is linked to nothing`,
        nearest: null,
        hops: [],
      },
    standsFor: () => [],
    sources: [],
    screens: [],
    power: NO_POWER,
    data: () => [],
    coverage: () => ({ device: [], link: [] }),
    parts: () => [],
    failures: () => ({ failures: [], needs: [], voltages: () => [], notAnalysed: [] }),
    ...given,
  };
}

export function findingOf(given: Partial<Finding> & Pick<Finding, 'rule' | 'at' | 'message'>): Finding {
  return { severity: 'error', related: [], repairs: [], waived: null, ...given };
}

export function vesselReport(given: Partial<VesselReport> & Pick<VesselReport, 'analysis'>): VesselReport {
  const places = given.places ?? placesOf({});
  const problems = (given.problems ?? []).map((one) => ({
    ...one,
    finding: given.analysis.findings.find(
      ({ rule, message, at }) =>
        rule === one.rule &&
        message === one.message &&
        JSON.stringify(places.find(at)) === JSON.stringify(one.place),
    ),
  }));
  const of = (severity: Problem['severity']): number =>
    problems.filter((one) => one.severity === severity && one.waived === null).length;
  return {
    name: given.analysis.vessel.name,
    file: fileUri('kittiwake.loft'),
    option: null,
    options: [],
    counts: {
      error: of('error'),
      warning: of('warning'),
      information: of('information'),
      waived: problems.filter((one) => one.waived !== null).length,
      unknown: given.analysis.unknowns.length,
    },
    rulesRun: given.analysis.rulesRun,
    ...given,
    places,
    problems,
  };
}

export function projectReport(
  vessels: readonly VesselReport[],
  texts: Readonly<Record<string, string>> = {},
  files: ProjectReport['files'] = [],
): ProjectReport {
  const byUri = new Map(Object.entries(texts).map(([name, text]) => [fileUri(name), text]));
  return { vessels, files, text: (file) => byUri.get(file) };
}
