/**
 * The words of the language by the part they play, which decides their colour. tests/syntaxes compares this list
 * with the grammar: each keyword stands here once.
 */

/** Begin a statement; the name or the text that follows is declared or, after the last ones, meant. */
export const statements = {
  types: ['family', 'model', 'cable', 'signal', 'medium', 'class', 'exposure', 'fusetype'],
  things: ['vessel', 'zone', 'run', 'device', 'backbone', 'mode', 'day', 'option'],
  others: ['use', 'aboard', 'link', 'feed', 'negative', 'prefer', 'need', 'view'],
};

/** Begin an item of a backbone, a mode or an option, or say what a need asks for. */
export const actions = [
  ...['terminator', 'tee', 'span', 'tap', 'isolate', 'ground'],
  ...['set', 'charge', 'add', 'remove', 'change'],
  ...['show', 'hear', 'last', 'crank', 'spare', 'cost'],
];

/** Begin a property, a port's feature or a clause that has a value. */
export const properties = [
  ...['practice', 'currency', 'hull', 'status', 'owner', 'yard', 'number', 'revision', 'slack', 'wiring'],
  ...['targets', 'labour', 'end'],
  ...['title', 'part', 'note', 'screen', 'compass', 'length', 'od', 'price', 'takes', 'carries', 'voltage'],
  ...['charges', 'lowest', 'peukert', 'depth', 'cca', 'shortcircuit', 'closes', 'opens', 'forward'],
  ...['efficiency', 'peak', 'maxdrop', 'beam', 'chemistry', 'kind', 'ports', 'families', 'shows', 'shares'],
  ...['gives', 'wants', 'bridges', 'passes', 'positions', 'joins', 'ingress', 'band', 'capacity', 'sags'],
  ...['ignition', 'poe', 'total', 'resistance', 'loss'],
  ...['port', 'output', 'draws', 'max', 'standby', 'fuse', 'limits', 'cutout', 'load', 'len', 'drives'],
  ...['studs', 'in', 'out', 'accepts', 'talks', 'listens', 'sends', 'holds', 'cranks', 'captive', 'head'],
  ...['passive'],
  ...['longest', 'bend', 'rated', 'stock', 'bulk', 'size'],
  ...['pgn', 'sentence', 'connects', 'must', 'may', 'symbol', 'asks', 'ratings', 'interrupts'],
  ...['aft', 'height', 'side', 'deck', 'conduit', 'back', 'series', 'parallel', 'instance', 'offset'],
  ...['normally', 'synced', 'join', 'label', 'breaker', 'wire', 'drop'],
];

/** Say something by standing there. */
export const flags = [
  ...['automatic', 'dsc', 'sealed', 'sheathed', 'hd', 'standard', 'terminates', 'differential', 'single'],
  ...['isolated', 'powered', 'power', 'wet', 'hot', 'petrol', 'diesel', 'loom', 'existing', 'leaving'],
  ...['protected', 'cranking', 'joined', 'apart', 'capped', 'others', 'conductor'],
];

/** Glue the rest together. */
export const connectives = [
  ...['at', 'using', 'on', 'or', 'from', 'by', 'with', 'without', 'to', 'after', 'before', 'over', 'under'],
  ...['and', 'per', 'for'],
];

/** Set a finding aside. */
export const waivers = ['allow', 'because', 'until'];

/** Never names, except where a name is the only possibility. */
export const reserved = [
  ...['at', 'using', 'on', 'in', 'or', 'from', 'by', 'because', 'until', 'allow', 'with', 'without'],
  ...['others', 'capped'],
];

/** Begin a statement, all of them. */
export const statementWords = [...statements.types, ...statements.things, ...statements.others];

/** Every word above. */
export const allWords = [...statementWords, ...actions, ...properties, ...flags, ...connectives, ...waivers];
