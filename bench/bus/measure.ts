/** How long a backbone of 50 nodes takes: read along its cable, its voltages and its traffic. */
import { EmptyFileSystem, URI } from 'langium';
import { createBackbones } from '../../src/checks/buses/buses.js';
import { createContext } from '../../src/checks/context.js';
import { loadLibrary } from '../../src/language/library/documents.js';
import { createCoreServices, smallWorld } from '../../src/language/module.js';
import { reportOn } from '../../src/language/project/build.js';
import { percentileOf, settle, startWatch, type Span } from '../measure/figures.js';

const NODES = 50;
/** Runs in one measurement: a processor's time is told in steps that are too coarse for one. */
const BATCH = 20;

export async function measureBus(): Promise<Span> {
  const { shared, Wireloft } = createCoreServices(EmptyFileSystem, smallWorld('2026-01-01'));
  const { LangiumDocumentFactory: factory, LangiumDocuments: all, DocumentBuilder } = shared.workspace;
  await DocumentBuilder.build(loadLibrary(shared), { validation: false });
  const document = factory.fromString(boatText(), URI.parse('file:///boat/bus.loft'));
  all.addDocument(document);
  await DocumentBuilder.build([document], { validation: false });
  const vessel = reportOn([document], shared, Wireloft).vessels[0]?.analysis.vessel;
  if (vessel === undefined) throw new Error('The boat has no vessel.');
  const context = createContext(vessel);
  const spans: Span[] = [];
  for (let round = 0; round < 40; round++) {
    settle();
    const watch = startWatch();
    for (let run = 0; run < BATCH; run++) {
      const [bus] = createBackbones(context);
      if (bus?.bus.nodes.length !== NODES || bus.lowest() === undefined || bus.traffic().worst === 0)
        throw new Error('The backbone is not worked out.');
    }
    const { clock, core } = watch();
    if (round >= 10)
      spans.push({ clock: clock / BATCH, core: core === undefined ? undefined : core / BATCH });
  }
  return percentileOf(spans, 0.5);
}

function boatText(): string {
  const names = Array.from({ length: NODES }, (_, index) => `sensor${index}`);
  const items = names.map(
    (name, index) =>
      `  tee ${name} drop 1 m  span 0.5 m${index === NODES / 2 ? '  tap from panel.1 at cabin fuse 4 A wire 14 AWG' : ''}`,
  );
  return `
vessel Bus { practice abyc  slack 0.5 m  wiring 105 C }
zone cabin interior
model Bank : battery { voltage 12 V  charges 14.4 V  lowest 11 V  resistance 4 mohm  port post : dc }
model Ways : panel { port in : dc in  port 1..4 : dc out max 15 A holds blade }
model Sensor : instrument { port n2k : nmea2000 len 1  gives depth, speed, temperature.water }
device bank : Bank at cabin
device panel : Ways at cabin
feed bank -> panel fuse 30 A mrbf at bank wire 10 AWG
${names.map((name) => `device ${name} : Sensor at cabin`).join('\n')}
backbone nav using Nmea2000Mid {
  terminator
${items.join('\n')}
  terminator
}
`;
}
