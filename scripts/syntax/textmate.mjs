/**
 * The TextMate grammar, made from the words of the language. A line-by-line grammar cannot parse, so it goes by what
 * a name must follow: after `link`, `--`, a comma and their like comes a name, even if it is spelt as a keyword;
 * everywhere else a keyword is a keyword.
 */
import {
  ANY_NAME,
  NAME,
  NUMBER,
  PLAIN,
  RULE_CODE,
  STOP,
  captures,
  declared,
  declaredScope,
  expect,
  expectAfter,
  match,
  plain,
  scope,
  statementScope,
  withBlock,
} from './patterns.mjs';
import { actions, connectives, flags, properties, statements, statementWords, waivers } from './words.mjs';

/** @typedef {import('./patterns.mjs').Rule} Rule */

/** @type {Rule[]} */
const declarations = [
  ...statements.types
    .filter((word) => word !== 'model')
    .map((word) => expectAfter([word], statementScope(word), declaredScope(word))),
  // Named or not: "run gunwale : bow -- transom" and "run bow -- helm".
  expect(
    `\\b(run)\\s+(${NAME})\\s*(:)`,
    [statementScope('run'), declaredScope('run'), scope.colon],
    scope.thing,
  ),
  expectAfter(['run'], statementScope('run'), scope.thing),
  match(`\\b(zone)\\s+(${NAME})\\s+(${NAME})`, statementScope('zone'), declaredScope('zone'), scope.type),
  ...statements.things
    .filter((word) => word !== 'run' && word !== 'backbone')
    .map((word) => expectAfter([word], statementScope(word), declaredScope(word))),
  match(
    `\\b(need)\\s+(spare)\\s+(${NUMBER})\\s+(${NAME})`,
    statementScope('need'),
    scope.action,
    scope.number,
    scope.type,
  ),
  match('\\b(need)\\s+(cost)\\s+(under)\\b', statementScope('need'), scope.action, scope.connective),
  ...['aboard', 'link', 'feed', 'negative', 'prefer', 'need'].map((word) =>
    expectAfter([word], statementScope(word), scope.thing),
  ),
  ...['use', 'view'].map((word) => plain([word], statementScope(word))),
];

/** @type {Rule[]} what has to be seen before the single words */
const phrases = [
  expectAfter(['allow'], scope.waiver, 'constant.other.rule.wireloft', RULE_CODE),
  match('\\b(ignition)\\s+(protected)\\b', scope.property, scope.flag),
  match('\\b(poe)\\s+(gives|wants|total)\\b', scope.property, scope.property),
  // Also begin a statement, but never before a number.
  match('\\b(class|device)(?=\\s+\\d)', scope.property),
  expect('\\b(synced)\\s+(with)\\b', [scope.property, scope.connective], scope.thing),
  match('\\b(with)\\s+(power)\\b', scope.connective, scope.flag),
  match('\\b(per)\\s+(conductor)\\b', scope.connective, scope.flag),
  match(`\\b(per)\\s+(${PLAIN})`, scope.connective, scope.unit),
  match(`\\b(set)\\s+(${NAME})\\s+(${ANY_NAME}|${NUMBER})`, scope.action, scope.thing, scope.member),
];

/** @type {Rule[]} words after which comes a name */
const leads = [
  expectAfter(
    ['tee', 'span', 'set', 'charge', 'remove', 'change', 'show', 'hear', 'crank'],
    scope.action,
    scope.thing,
  ),
  expectAfter(['shows', 'shares', 'gives', 'wants'], scope.property, scope.thing),
  expectAfter(['families', 'bridges', 'join'], scope.property, scope.type),
  expectAfter(['back'], scope.property, scope.thing),
  expectAfter(
    [
      'practice',
      'currency',
      'hull',
      'status',
      'chemistry',
      'kind',
      'side',
      'deck',
      'ingress',
      'sends',
      'holds',
      'symbol',
    ],
    scope.property,
    scope.value,
  ),
  expectAfter(['sentence', 'connects', 'asks'], scope.property, scope.value),
  expectAfter(['must', 'may'], scope.property, scope.value, ANY_NAME),
  expectAfter(['port', 'positions', 'passes', 'joins', 'normally'], scope.property, scope.port, ANY_NAME),
  expectAfter(['using', 'or'], scope.connective, scope.type),
  expectAfter(
    ['at', 'on', 'in', 'from', 'by', 'with', 'without', 'to', 'after', 'before', 'over'],
    scope.connective,
    scope.thing,
  ),
];

/** @type {Rule[]} */
const operators = [
  { match: '\\.\\.', name: 'keyword.operator.range.wireloft' },
  expect('(\\.)', ['punctuation.accessor.wireloft'], scope.member, `${ANY_NAME}|\\d+`),
  expect('(--)', ['keyword.operator.link.wireloft'], scope.thing),
  expect('(->)', ['keyword.operator.feed.wireloft'], scope.thing, ANY_NAME),
  expect('(\\+)', ['keyword.operator.join.wireloft'], scope.port, ANY_NAME),
  { match: '-(?=\\s*\\d)', name: 'keyword.operator.minus.wireloft' },
  expect('(,)', ['punctuation.separator.comma.wireloft'], scope.thing, ANY_NAME),
  expect('(:)', [scope.colon], scope.type),
  { match: '\\{', name: 'punctuation.section.block.begin.wireloft' },
  { match: '\\}', name: 'punctuation.section.block.end.wireloft' },
];

/** @type {Rule[]} */
const quantities = [
  { match: '\\b\\d+-\\d+-\\d+\\b', name: 'constant.numeric.date.wireloft' },
  match(`\\b([1-4]/0)(?:\\s*(${PLAIN}))?`, scope.number, scope.unit),
  // The word after a current is a fuse's type, or what an antenna's port serves.
  match(
    `(?<![\\p{L}_])(${NUMBER})\\s*(%|in\\b|${PLAIN})(?:\\s+(${PLAIN})(?!\\s*[.:]))?`,
    scope.number,
    scope.unit,
    scope.value,
  ),
  { match: `(?<![\\p{L}_])${NUMBER}`, name: scope.number },
  { match: '%', name: scope.unit },
];

/** @type {Rule[]} */
const words = [
  plain(statementWords, 'storage.type.wireloft'),
  plain(actions, scope.action),
  plain(properties, scope.property),
  plain(flags, scope.flag),
  plain(connectives, scope.connective),
  plain(waivers, scope.waiver),
  { match: ANY_NAME, name: scope.thing },
];

/**
 * The names of a port declaration, up to its colon. A name that no comma follows ends it, so that a half-typed one
 * takes nothing with it.
 * @type {Rule}
 */
const portNames = {
  begin: `\\b(port)\\s+(?:(${ANY_NAME})|(\\d+))`,
  beginCaptures: captures(scope.property, scope.port, scope.number),
  end: `${STOP}|(?<=[\\p{L}\\p{Nd}_])(?=\\s+[\\p{L}_]|\\s*$)|(?=[^\\s,/.\\p{L}\\p{Nd}_])`,
  patterns: [
    { include: '#comments' },
    { match: ',', name: 'punctuation.separator.comma.wireloft' },
    { match: '\\.\\.', name: 'keyword.operator.range.wireloft' },
    { match: ANY_NAME, name: scope.port },
    { match: '\\d+', name: scope.number },
  ],
};

/** Inside a model's block `in` and `out` are a port's directions, and a word of no other part is what it serves. */
const modelBody = [
  portNames,
  { match: '\\b(?:in|out)\\b', name: scope.property },
  match(`(:)\\s*(${NAME})(?:\\s+(${PLAIN}))?`, scope.colon, scope.type, scope.value),
];

/** Inside a backbone's block a further brace opens the branches of a tee box. */
const backboneBody = [
  {
    begin: '\\{',
    beginCaptures: { 0: { name: 'punctuation.section.block.begin.wireloft' } },
    end: `${STOP}|(\\})`,
    endCaptures: captures('punctuation.section.block.end.wireloft'),
    patterns: [match(`\\G\\s*(${NAME})`, scope.thing), { include: '#text' }],
  },
];

/** Inside a view's block a name before a colon is a pane. */
const viewBody = [
  expect(`(${NAME})\\s*(:)`, ['entity.name.variable.pane.wireloft', scope.colon], scope.thing),
];

/** @returns {string} the text of syntaxes/wireloft.tmLanguage.json */
export function textMateGrammar() {
  const grammar = {
    information_for_contributors: 'Generated from scripts/syntax by `npm run generate`. Do not edit.',
    name: 'Wireloft',
    scopeName: 'source.wireloft',
    fileTypes: ['loft'],
    patterns: [{ include: '#text' }],
    repository: {
      text: {
        patterns: [
          'comments',
          'strings',
          'phrases',
          'blocks',
          'declarations',
          'leads',
          'quantities',
          'operators',
          'words',
        ].map((name) => ({ include: `#${name}` })),
      },
      comments: {
        patterns: [
          {
            name: 'comment.line.documentation.wireloft',
            match: '(///)(?!/).*$',
            captures: captures('punctuation.definition.comment.wireloft'),
          },
          {
            name: 'comment.line.double-slash.wireloft',
            match: '(//).*$',
            captures: captures('punctuation.definition.comment.wireloft'),
          },
          {
            name: 'comment.block.wireloft',
            begin: '/\\*',
            end: '\\*/',
            captures: { 0: { name: 'punctuation.definition.comment.wireloft' } },
          },
        ],
      },
      strings: {
        patterns: [
          {
            name: 'string.quoted.double.wireloft',
            begin: '"',
            beginCaptures: { 0: { name: 'punctuation.definition.string.begin.wireloft' } },
            end: '(")|$',
            endCaptures: captures('punctuation.definition.string.end.wireloft'),
            patterns: [{ match: '\\\\.', name: 'constant.character.escape.wireloft' }],
          },
        ],
      },
      phrases: { patterns: phrases },
      blocks: {
        patterns: [
          withBlock('model', NAME, [declared(declaredScope('model'))], modelBody),
          withBlock('backbone', NAME, [declared(declaredScope('backbone'))], backboneBody),
          withBlock('view', '"', [], viewBody),
        ],
      },
      declarations: { patterns: declarations },
      leads: { patterns: leads },
      quantities: { patterns: quantities },
      operators: { patterns: operators },
      words: { patterns: words },
    },
  };
  return `${JSON.stringify(grammar, null, 2)}\n`;
}
