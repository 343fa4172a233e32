/** Declarations at the top of a file, as far as its kind allows, and after `add` in an option. */
import type { Boat } from '../boat.js';
import { kinds, type Suggestion } from '../suggestion.js';

type Belongs = 'any file' | 'vessel' | 'fragment' | 'aboard' | 'library';

interface Declaration {
  readonly belongs: Belongs;
  readonly detail: string;
  readonly snippet: string;
}

const d = (belongs: Belongs, detail: string, snippet: string): Declaration => ({ belongs, detail, snippet });

const DECLARATIONS: Readonly<Record<string, Declaration>> = {
  use: d('any file', 'Take what another file declares', 'use "${1:catalogue.loft}"'),
  vessel: d(
    'vessel',
    'The vessel that the spec is about',
    'vessel ${1:Name} "${2:what she is}" {\n  practice ${3|abyc,iso|}\n  currency ${4:USD}\n  slack    ${5:0.5} m\n  $0\n}',
  ),
  aboard: d('fragment', 'Begins a file that holds a part of a vessel', 'aboard ${1:Vessel}'),
  family: d('any file', 'Displays that network only among themselves', 'family ${1:Name} "${2:what it is}"'),
  model: d(
    'any file',
    'A piece of gear as it is sold',
    'model ${1:Name} : ${2:display} {\n  title "${3:what it is}"  price ${4:100} USD\n  $0\n}',
  ),
  cable: d(
    'any file',
    'A cable as it is sold',
    'cable ${1:Name} : ${2:ethernet} { od ${3:6} mm  stock ${4:2} m at ${5:20} USD }',
  ),
  signal: d('any file', 'Something that devices give, share and show', 'signal ${1:name} "${2:title}"'),
  zone: d(
    'aboard',
    'A place aboard',
    'zone ${1:name} ${2|exposed,aloft,sheltered,interior,machinery|} aft ${3:1} m',
  ),
  run: d('aboard', 'A way for cables between two zones', 'run ${1:from} -- ${2:to} ${3:1} m'),
  device: d('aboard', 'A piece of gear aboard', 'device ${1:name} : ${2:Model} at ${3:zone}'),
  link: d('aboard', 'A cable between two devices', 'link ${1:device} -- ${2:device}'),
  backbone: d(
    'aboard',
    'An NMEA 2000 bus, read along its cable',
    'backbone ${1:name} using ${2:Cable} {\n  terminator\n  tee ${3:device} drop ${4:1} m\n  $0\n  terminator\n}',
  ),
  feed: d('aboard', 'A supply conductor and what protects it', 'feed ${1:from} -> ${2:to}  fuse ${3:5} A'),
  negative: d(
    'aboard',
    'Whether the negatives of banks are joined',
    'negative ${1:start}, ${2:house} ${3|joined,apart|}',
  ),
  prefer: d('aboard', 'Which source of a signal is taken first', 'prefer ${1:heading} from ${2:device}'),
  need: d('aboard', 'What the boat has to do', 'need ${1:screen} show ${2:source}'),
  mode: d('aboard', 'What is on, for the battery', 'mode ${1:name} {\n  on ${2:device}\n  $0\n}'),
  day: d('aboard', 'A day in modes, for the battery', 'day ${1:name} { in ${2:mode} ${3:6} h }'),
  view: d(
    'aboard',
    'What a screen is to show',
    'view "${1:title}" on ${2:screen} { ${3:left}: ${4:source} }',
  ),
  option: d('aboard', 'A variant to quote', 'option ${1:name} "${2:title}" {\n  add $0\n}'),
  medium: d('library', 'What a port can be of', 'medium ${1:name} "${2:title}" { connects ${3:pair} }'),
  class: d('library', 'What a model can be', 'class ${1:name} "${2:title}" { symbol ${3:box} }'),
  exposure: d('library', 'What a place does to gear', 'exposure ${1:name} "${2:title}" { asks ${3:IPX4} }'),
  fusetype: d('library', 'Fuses as they are sold', 'fusetype ${1:name} "${2:title}" { ratings ${3:10} A }'),
};

/** The declaration that a keyword begins, where the file may have it. */
export function statement(keyword: string, boat: Boat): readonly Suggestion[] {
  const declaration = DECLARATIONS[keyword];
  return declaration && isAllowed(declaration.belongs, boat) ? [suggestion(keyword, declaration)] : [];
}

/** The declaration that a keyword begins after `add`. */
export function added(keyword: string): readonly Suggestion[] {
  const declaration = DECLARATIONS[keyword];
  return declaration ? [suggestion(keyword, declaration)] : [];
}

const suggestion = (keyword: string, { detail, snippet }: Declaration): Suggestion => ({
  label: keyword,
  kind: kinds.declaration,
  detail,
  text: `${keyword} `,
  snippet,
});

function isAllowed(belongs: Belongs, boat: Boat): boolean {
  const { facts } = boat;
  switch (belongs) {
    case 'any file':
      return true;
    case 'aboard':
      return facts.kind === 'vessel' || facts.kind === 'fragment';
    case 'library':
      return facts.kind === 'library';
    case 'vessel':
      return isNeither(boat) && !isUsed(boat);
    case 'fragment':
      return isNeither(boat) && facts.names.goods.size === 0;
  }
}

/** The file has no vessel and no `aboard` yet, but for what stands at the cursor. */
function isNeither({ facts, at }: Boat): boolean {
  const heads = facts.aboard ? [...facts.vessels, facts.aboard] : facts.vessels;
  return facts.kind !== 'library' && heads.every((head) => head.$cstNode?.offset === at.cursor);
}

/** A file that others use as a catalogue is none of a vessel's. */
const isUsed = ({ facts, closures }: Boat): boolean =>
  closures.rootsUsing(facts.uri).some((root) => root !== facts.uri);
