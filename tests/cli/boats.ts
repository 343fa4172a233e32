/** A boat with one of everything that the terminal prints, by hand. */
import { createContext } from '../../src/checks/context.js';
import { FAILURES } from './failing.js';
import { WANTS } from './wants.js';
import { busBoat } from '../support/busBoat.js';
import { feed } from '../support/text.js';
import { boat, dc, model } from '../support/vessel.js';
import type { TerminalLoad } from '../../src/checks/power/loads/load.js';
import type { ViewAnswer } from '../../src/checks/analysis.js';
import type { ProjectReport } from '../../src/language/project/report.js';
import type { Link, Run } from '../../src/vessel/model.js';
import {
  analysisOf,
  deviceOf,
  fileUri,
  NO_POWER,
  findingOf,
  place,
  placesOf,
  portOf,
  problem,
  projectReport,
  vesselOf,
  vesselReport,
} from './reports.js';

/** 100 Ah at 20 h, half of which may be used, behind 5 A for half of the day: 5 A is the rated current. */
const BATTERY = createContext(
  boat({
    models: [
      model('Bank', 'battery', {
        volts: 12,
        capacity: { ampHours: 100, atHours: 20 },
        chemistry: 'agm',
        peukert: 1.1,
        depth: 0.5,
        ports: [dc('post')],
      }),
      model('Lamp', 'load', { ports: [dc('power', 'in', { draws: { amount: 5, unit: 'A' } })] }),
    ],
    devices: { house: 'Bank', lamp: 'Lamp' },
    more: {
      feeds: [feed('house -> lamp')],
      modes: [
        {
          name: 'night',
          origin: 'night',
          duties: [{ kind: 'on', device: 'lamp', duty: 1, atMax: false }],
        },
      ],
      days: [{ name: 'away', origin: 'away', parts: [{ mode: 'night', seconds: 4 * 3600 }] }],
    },
  }),
);

const SPEC = `vessel Kittiwake
device plotter : Tern13 at helm
device bow : Tern8 at bow
link keel -- bow.sonar
need bow show keel
link bow -- hub.1 using Patch allow cable/not-sealed because "bench test"
`;
const CATALOGUE = `family Tern\n\tmodel Tern8 : display { colour 1 }\n`;

const keelOnPlotter: ViewAnswer = {
  screen: 'plotter',
  source: 'keel',
  signal: 'sonar.side',
  visible: true,
  verdict: 'reached',
  by: 'own',
  path: ['keel', 'plotter'],
  needsPowered: [],
  reason: null,
  nearest: null,
  hops: [
    { device: 'plotter', port: 'sonar', why: 'linked to its port sonar', spot: { origin: 'device plotter' } },
  ],
};
const keelOnBow: ViewAnswer = {
  ...keelOnPlotter,
  screen: 'bow',
  visible: false,
  verdict: 'grade-refused',
  by: null,
  path: [],
  reason: 'bow.sonar accepts standard grade, and keel is high-definition',
  nearest: 'link it to plotter.sonar, which accepts hd',
  hops: [
    { device: 'keel', port: 'plug', why: 'linked to bow.sonar', spot: { origin: 'link keel' } },
    { device: 'bow', port: 'sonar', why: 'accepts standard grade', spot: { origin: 'device bow' } },
  ],
};
const camOnBow: ViewAnswer = {
  ...keelOnBow,
  source: 'cam',
  signal: 'video',
  visible: null,
  verdict: 'unknown',
  reason: 'Cam says no port',
  hops: [{ device: 'cam', port: undefined, why: 'Cam says no port', spot: { origin: 'device cam' } }],
};

const SCREEN_LOAD: TerminalLoad = {
  terminal: 'bow.power',
  kind: 'device',
  device: 'bow',
  state: 'on',
  typical: { amount: 1, unit: 'A' },
  maximum: { amount: 2, unit: 'A' },
  standby: undefined,
  duty: 1,
  maxDuty: 0.25,
  running: { amount: 2, unit: 'A' },
  average: [
    { draw: { amount: 1, unit: 'A' }, share: 0.75 },
    { draw: { amount: 2, unit: 'A' }, share: 0.25 },
  ],
  missing: undefined,
};
const MUTE_LOAD: TerminalLoad = {
  ...SCREEN_LOAD,
  terminal: 'cam.power',
  device: 'cam',
  typical: undefined,
  maximum: undefined,
  running: undefined,
  average: undefined,
  maxDuty: 0,
  missing: 'Cam does not say what it draws',
};

const keelLink: Link = {
  origin: 'link keel',
  a: { device: 'keel', port: undefined, portUnresolved: false },
  b: { device: 'bow', port: 'sonar', portUnresolved: false },
  cable: undefined,
  joins: [],
  by: [],
  lengthMetres: undefined,
  label: 'T1',
  existing: false,
};

const alongside: Run = {
  origin: 'run bow -- helm',
  name: undefined,
  from: 'bow',
  to: 'helm',
  lengthMetres: 5.5,
  conduitMetres: 0.032,
  conduit: true,
  loom: false,
};

/** A refused grade with the need that fails by it, a waived cable, a catalogue with a fault of its own, and things not known. */
export function kittiwake(): ProjectReport {
  const grade = 'bow cannot host keel: its port sonar accepts standard grade, keel is high-definition.';
  const analysis = analysisOf(
    {
      vessel: vesselOf({
        name: 'Kittiwake',
        runs: [alongside],
        views: [
          {
            origin: 'view Drift',
            name: 'Drift',
            screen: 'plotter',
            panes: [
              {
                origin: 'pane Drift/left',
                name: 'left',
                layers: [{ device: 'keel', signal: undefined, text: 'keel' }],
              },
            ],
          },
        ],
        devices: [
          deviceOf('plotter', 'Tern13', 'helm'),
          deviceOf('bow', 'Tern8', 'bow'),
          deviceOf('keel', 'BeamHD', 'bow'),
        ],
      }),
      screens: ['plotter', 'bow'],
      sources: [
        { source: 'keel', signal: 'sonar.side', grade: 'hd' },
        { source: 'cam', signal: 'video', grade: undefined },
      ],
      links: [
        {
          link: keelLink,
          medium: 'transducer',
          a: { device: 'keel', port: portOf({ name: 'plug', medium: 'transducer' }) },
          b: { device: 'bow', port: portOf({ name: 'sonar', medium: 'transducer' }) },
        },
      ],
      ports: [
        {
          device: 'hub',
          port: portOf({ name: '1', medium: 'ethernet', sealed: true }),
          on: [{ what: 'bow.net', spot: { origin: 'link net' } }],
        },
        { device: 'hub', port: portOf({ name: '2', medium: 'ethernet' }), on: [] },
        { device: 'radio', port: portOf({ name: 'fist', medium: 'own', ownPlug: 'handset' }), on: [] },
      ],
      passages: [
        {
          what: 'bow.sonar -- keel.plug',
          spot: { origin: keelLink.origin },
          from: 'bow',
          to: 'helm',
          route: { kind: 'route', zones: ['bow', 'helm'], runs: [alongside], metres: 5.504 },
          lengthStated: false,
          odMetres: undefined,
          headMetres: undefined,
          moulded: true,
        },
      ],
      cables: [
        {
          link: keelLink,
          id: 'bow.sonar--keel.plug',
          cable: 'Ext',
          zones: ['bow', 'helm'],
          runs: [alongside],
          neededMetres: 6.504,
          routeMetres: 6.504,
          statedMetres: undefined,
          pieces: [5, 2],
          captiveMetres: undefined,
          unknown: undefined,
        },
        {
          link: {
            ...keelLink,
            origin: 'link net',
            a: { device: undefined, port: undefined, portUnresolved: false },
            label: undefined,
          },
          id: 'bow.net--hub.1',
          cable: undefined,
          zones: [],
          runs: [],
          neededMetres: undefined,
          routeMetres: undefined,
          statedMetres: undefined,
          pieces: [],
          captiveMetres: 9,
          unknown: 'cam has no zone',
        },
      ],
      needs: [
        {
          index: 0,
          spot: { origin: 'need 1' },
          text: 'bow show keel',
          met: false,
          reason: keelOnBow.reason,
          answers: [keelOnBow],
        },
        {
          index: 1,
          spot: { origin: 'need 2' },
          text: 'house last 6 h',
          met: null,
          reason: 'not judged yet',
          answers: [],
        },
      ],
      findings: [
        findingOf({ rule: 'sonar/host-grade', at: { origin: 'link keel', part: 'b' }, message: grade }),
        findingOf({ rule: 'need/not-met', at: { origin: 'need 1' }, message: 'bow does not show keel.' }),
        findingOf({
          rule: 'cable/not-sealed',
          at: { origin: 'link net' },
          message: 'Patch is not sealed.',
          waived: 'bench test',
        }),
      ],
      unknowns: [
        { rule: 'cable/fill', at: { origin: 'device bow' }, missing: 'Patch has no od' },
        { rule: 'cable/fill', at: { origin: 'link net' }, missing: 'Ext has no od' },
        { rule: 'place/ingress', at: { origin: 'link net' }, missing: 'Cam has no ingress' },
      ],
      buses: busBoat(['terminator', 'tap', 'span 10', 'depth drop 2', 'span', 'mute drop 1', 'terminator'], {
        depth: 4,
        mute: undefined,
      }).context.buses,
      loads: {
        modes: [undefined],
        starters: [],
        loadsIn: () => ({ mode: undefined, all: [SCREEN_LOAD, MUTE_LOAD], at: () => undefined }),
      },
      energy: BATTERY.energy,
      power: {
        ...NO_POWER,
        marginAt: (terminal) =>
          terminal === 'bow.power'
            ? {
                mode: undefined,
                volts: 10.9,
                lowestVolts: 10,
                toLowest: 3.14159,
                toCollapse: Infinity,
                missing: undefined,
              }
            : { mode: undefined, volts: 11, lowestVolts: 10, toLowest: 9, toCollapse: 9, missing: 'a wire' },
        feeds: () => [
          {
            origin: 'feed 1',
            kind: 'feed',
            from: 'panel.1',
            to: 'bow.power',
            label: 'F1',
            lengthMetres: 3,
            zones: ['helm', 'bow'],
            wire: { size: '14 AWG', computed: true, other: '2.5 mm2', governedBy: 'drop' },
            cable: undefined,
            sheathed: false,
            ratedCelsius: 105,
            engineSpace: false,
            loadedConductors: 2,
            protection: [{ device: 'fuse', amps: 5, type: 'blade', at: 'panel', computed: false }],
            protectedUpstream: false,
            typicalAmps: 1,
            maxAmps: 2,
            crankingAmps: undefined,
            ampacityAmps: 35,
            dropVolts: 0.123456,
            dropPercent: 1.0288,
            ownDropVolts: 0.1,
            allowedPercent: 3,
            loadVolts: 11.876544,
            mode: 'drifting',
            missing: undefined,
          },
          {
            origin: 'feed 2',
            kind: 'feed',
            from: 'panel.2',
            to: 'cam.power',
            label: undefined,
            lengthMetres: undefined,
            zones: [],
            wire: { size: undefined, computed: true, other: undefined, governedBy: undefined },
            cable: undefined,
            sheathed: false,
            ratedCelsius: undefined,
            engineSpace: undefined,
            loadedConductors: undefined,
            protection: [],
            protectedUpstream: true,
            typicalAmps: undefined,
            maxAmps: undefined,
            crankingAmps: undefined,
            ampacityAmps: undefined,
            dropVolts: undefined,
            dropPercent: undefined,
            ownDropVolts: undefined,
            allowedPercent: undefined,
            loadVolts: undefined,
            mode: undefined,
            missing: 'Cam does not say what it draws',
          },
        ],
      },
      data: () => WANTS,
      coverage: () => ({
        device: [{ name: 'bow', covered: true, by: ['bow show keel'], spot: { origin: 'device bow' } }],
        link: [{ id: 'bow.net--hub.1', covered: false, by: [], spot: { origin: 'link net' } }],
      }),
      failures: () => FAILURES,
      parts: () => [
        {
          kind: 'device',
          model: 'Tern8',
          title: '8-inch, "sunlight" display',
          part: '-TRN-8',
          lengthMetres: undefined,
          quantity: 1,
          unitPrice: 1200,
          totalPrice: 1200,
          currency: 'USD',
          existing: false,
        },
        {
          kind: 'cable',
          model: 'Patch',
          title: undefined,
          part: undefined,
          lengthMetres: 2,
          quantity: 3,
          unitPrice: null,
          totalPrice: null,
          currency: null,
          existing: false,
        },
        {
          kind: 'device',
          model: 'OldWind',
          title: '=cmd()',
          part: undefined,
          lengthMetres: undefined,
          quantity: 1,
          unitPrice: null,
          totalPrice: null,
          currency: null,
          existing: true,
        },
      ],
    },
    [keelOnPlotter, keelOnBow, camOnBow],
  );
  const vessel = vesselReport({
    analysis,
    places: placesOf({
      'device plotter': place('kittiwake.loft', 1, 7, 14),
      'device bow': place('kittiwake.loft', 2, 7, 10),
      'link keel': place('kittiwake.loft', 3, 0, 22),
      'link keel b': place('kittiwake.loft', 3, 13, 22),
      'need 1': place('kittiwake.loft', 4, 0, 18),
      'link net': place('kittiwake.loft', 5, 0, 17),
    }),
    problems: [
      problem({
        rule: 'sonar/host-grade',
        message: grade,
        place: place('kittiwake.loft', 3, 13, 22),
        related: [{ place: place('tern models.loft', 1, 1, 12), message: 'Tern8 is declared here.' }],
        fixes: [
          { title: 'Leave it out', preferred: false, edits: [] },
          {
            title: 'Link it to plotter.sonar',
            preferred: true,
            edits: [{ place: place('kittiwake.loft', 3, 13, 16), text: 'plotter' }],
          },
        ],
      }),
      problem({
        rule: 'need/not-met',
        message: 'bow does not show keel.',
        place: place('kittiwake.loft', 4, 0, 18),
      }),
      problem({
        rule: 'cable/not-sealed',
        severity: 'warning',
        message: 'Patch is not sealed.',
        place: place('kittiwake.loft', 5, 0, 17),
        waived: 'bench test',
      }),
      problem({
        rule: 'syntax',
        severity: 'error',
        message: 'A name is wanted.',
        place: place('kittiwake.loft', 0, 16, 16),
      }),
    ],
  });
  return projectReport([vessel], { 'kittiwake.loft': SPEC, 'tern models.loft': CATALOGUE }, [
    {
      file: fileUri('tern models.loft'),
      problems: [
        problem({
          rule: 'type/class-property',
          severity: 'warning',
          message: 'A display has no colour.',
          place: place('tern models.loft', 1, 25, 31),
        }),
        problem({
          rule: 'unused/model',
          severity: 'information',
          message: 'Nothing uses Tern8.',
          place: place('tern models.loft', 1, 7, 12),
        }),
      ],
    },
  ]);
}
