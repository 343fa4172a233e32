/** Properties that do not fit their class or medium, are given twice or missing, and words and counts out of their lists. */
import { kindOf, LONGEST_SENTENCE } from '../../vessel/serial.js';
import type { AstNode } from 'langium';
import * as ast from '../generated/ast.js';
import { nearest } from '../naming/nearest.js';
import { LARGEST_PORT_RANGE } from '../parsing/limits.js';
import type { Problem } from '../project/report.js';
import { ALWAYS, propertyKeyword, rulesOf } from '../typing/keywords.js';
import {
  BAUD_RATES,
  CHEMISTRIES,
  CONNECTIONS,
  HULLS,
  LOAD_KINDS,
  PRACTICES,
  SERVICES,
  SIDES,
  STATUSES,
  type WordList,
} from '../typing/words.js';
import { isCurrency, CURRENCIES } from '../../vessel/units.js';
import { article, capital, either, placeOf, placeOfKeyword, problem, replaceFix } from './problem.js';

export function propertyProblems(node: AstNode, inLibrary: boolean): Problem[] {
  switch (node.$type) {
    case 'ModelDecl':
      return [
        ...modelProblems(node as ast.ModelDecl),
        ...repeated((node as ast.ModelDecl).properties, (node as ast.ModelDecl).name, [
          'port',
          'passes',
          'loss',
        ]),
      ];
    case 'CableDecl':
      return repeated((node as ast.CableDecl).properties, (node as ast.CableDecl).name, ['loss']);
    case 'VesselDecl':
      return repeated((node as ast.VesselDecl).properties, (node as ast.VesselDecl).name, []);
    case 'DeviceDecl':
      return repeated((node as ast.DeviceDecl).properties, (node as ast.DeviceDecl).name, []);
    case 'LinkDecl':
      return repeated((node as ast.LinkDecl).clauses, 'this link', ['join']);
    case 'FeedDecl':
      return repeated((node as ast.FeedDecl).clauses, 'this feed', ['join']);
    case 'ZoneDecl':
      return repeated((node as ast.ZoneDecl).clauses, (node as ast.ZoneDecl).name, []);
    case 'PortDecl':
      return portProblems(node as ast.PortDecl);
    case 'PortRange':
      return rangeProblems(node as ast.PortRange);
    case 'VesselWord':
      return vesselWord(node as ast.VesselWord);
    case 'WordProperty': {
      const { key, value } = node as ast.WordProperty;
      return word(
        node,
        value,
        key === 'kind' ? LOAD_KINDS : CHEMISTRIES,
        key === 'kind' ? 'kind of load' : 'chemistry',
      );
    }
    case 'ZoneWord':
      return (node as ast.ZoneWord).key === 'side'
        ? word(node, (node as ast.ZoneWord).value, SIDES, 'side')
        : [];
    case 'ServiceFeature':
      return word(node, (node as ast.ServiceFeature).service, SERVICES, 'antenna service', 'service');
    case 'ConnectsProperty':
      return word(node, (node as ast.ConnectsProperty).value, CONNECTIONS, 'way to connect');
    case 'IngressProperty':
    case 'AsksProperty':
      return codes(node as ast.IngressProperty | ast.AsksProperty);
    case 'MessageItem':
      return message(node, (node as ast.MessageItem).message, 'message');
    case 'PgnProperty':
      return message(node, (node as ast.PgnProperty).pgn, 'pgn');
    case 'PassesProperty':
      return (node as ast.PassesProperty).messages.flatMap((text, index) =>
        message(node, text, 'messages', index),
      );
    case 'ClassDecl':
    case 'MediumDecl':
    case 'ExposureDecl':
    case 'FuseTypeDecl':
      return inLibrary ? [] : [libraryOnly(node as ast.ClassDecl)];
    default:
      return counts(node);
  }
}

// ---------------------------------------------------------------- classes and media

function modelProblems(model: ast.ModelDecl): Problem[] {
  const declaration = model.class?.ref;
  if (!declaration) return [];
  const { must, may } = rulesOf(declaration);
  const problems: Problem[] = [];
  const has = new Set(model.properties.map(propertyKeyword));
  const missing = must.filter((key) => !has.has(key));
  if (missing.length > 0)
    problems.push(
      problem(
        'type/class-property',
        `${model.name} is ${article(declaration.name)} and says nothing of its ${either(missing)}; without that nothing can be checked of it. Add "${missing[0] ?? ''} ...".`,
        placeOf(model, 'name'),
        {
          related: [
            {
              place: placeOf(declaration, 'name'),
              message: `${article(declaration.name)} must have ${either(must)}`,
            },
          ],
        },
      ),
    );
  const allowed = new Set([...ALWAYS, ...must, ...may]);
  for (const property of model.properties) {
    const key = propertyKeyword(property);
    if (allowed.has(key) || key === '') continue;
    problems.push(
      problem(
        'type/class-property',
        `${model.name} is ${article(declaration.name)}, and ${article(declaration.name)} has no ${key}. It may have ${either([...must, ...may])}.`,
        placeOfKeyword(property, key),
        {
          fixes: [replaceFix(`Remove ${key}`, placeOf(property), '', false)],
        },
      ),
    );
  }
  return problems;
}

function portProblems(port: ast.PortDecl): Problem[] {
  const medium = port.medium?.ref;
  const problems = repeated(port.features, `port ${port.items[0]?.$cstNode?.text ?? ''}`, []);
  if (!medium) return problems;
  const { must, may } = rulesOf(medium);
  const allowed = new Set([...must, ...may]);
  if (medium.name !== 'own' && port.plug !== undefined)
    problems.push(
      problem(
        'type/class-property',
        `Only a maker's own plug is named; ${medium.name} has one plug. Remove "${port.plug}", or write : own "${port.plug}".`,
        placeOf(port, 'plug'),
      ),
    );
  for (const feature of port.features) {
    const key = propertyKeyword(feature);
    if (allowed.has(key) || key === '') continue;
    if (key === 'service' && ast.isServiceFeature(feature)) {
      const meant = nearest(feature.service, [...allowed, ...ALWAYS]);
      problems.push(
        problem(
          'type/class-property',
          `Nothing called "${feature.service}" fits a port of ${medium.name}.${meant ? ` Did you mean "${meant}"?` : ''}`,
          placeOf(feature),
          {
            fixes: meant ? [replaceFix(`Change to ${meant}`, placeOf(feature), meant)] : [],
          },
        ),
      );
      continue;
    }
    problems.push(
      problem(
        'type/class-property',
        `A port of ${medium.name} has no "${key}". It may have ${either([...must, ...may])}.`,
        placeOf(feature),
        {
          fixes: [replaceFix(`Remove ${key}`, placeOf(feature), '', false)],
        },
      ),
    );
  }
  return problems;
}

function repeated(properties: readonly AstNode[], owner: string, many: readonly string[]): Problem[] {
  if (properties.length < 2) return [];
  const seen = new Map<string, AstNode>();
  const problems: Problem[] = [];
  for (const property of properties) {
    const key = propertyKeyword(property);
    const before = seen.get(key);
    if (key === '' || many.includes(key)) continue;
    if (before)
      problems.push(
        problem('type/duplicate', `${key} is given twice for ${owner}. Keep one.`, placeOf(property), {
          related: [{ place: placeOf(before), message: `${key} is given here already` }],
        }),
      );
    else seen.set(key, property);
  }
  return problems;
}

function libraryOnly(node: ast.ClassDecl | ast.MediumDecl | ast.ExposureDecl | ast.FuseTypeDecl): Problem {
  const kind = node.$type.replace(/Decl$/, '').toLowerCase();
  return problem(
    'type/class-property',
    `${capital(article(kind))} is declared by the bundled library alone, since the checks are built on it. Remove ${node.name} and use one of the library's.`,
    placeOf(node, 'name'),
  );
}

// ---------------------------------------------------------------- words, codes and messages

function word(
  node: AstNode,
  value: string | undefined,
  list: WordList,
  what: string,
  property = 'value',
): Problem[] {
  if (value === undefined || Object.hasOwn(list, value)) return [];
  const known = Object.keys(list);
  const meant = nearest(value, known);
  return [
    problem(
      'type/unknown-name',
      `There is no ${what} "${value}". Write ${either(known)}.`,
      placeOf(node, property),
      {
        fixes: meant ? [replaceFix(`Change to ${meant}`, placeOf(node, property), meant)] : [],
      },
    ),
  ];
}

function vesselWord(node: ast.VesselWord): Problem[] {
  switch (node.key) {
    case 'practice':
      return word(node, node.value, PRACTICES, 'practice');
    case 'hull':
      return word(node, node.value, HULLS, 'hull material');
    case 'status':
      return word(node, node.value, STATUSES, 'status');
    case 'currency':
      return node.value === undefined || isCurrency(node.value)
        ? []
        : word(node, node.value, Object.fromEntries(CURRENCIES.map((code) => [code, ''])), 'currency');
  }
}

function codes(node: ast.IngressProperty | ast.AsksProperty): Problem[] {
  return node.codes.flatMap((code, index) =>
    /^IP[0-6X][0-9X][A-HMSWK]{0,2}$/.test(code)
      ? []
      : [
          problem(
            'type/value-range',
            `"${code}" is no IP code. After IEC 60529 it is IP, a digit 0 to 6 or X, and a digit 0 to 9 or X: IPX6, IP67.`,
            placeOf(node, 'codes', index),
          ),
        ],
  );
}

/** The dollar, the checksum with its star, carriage return and line feed. */
const SHORTEST_FRAME = 6;

function message(node: AstNode, text: string | undefined, property: string, index?: number): Problem[] {
  if (text === undefined) return [];
  const fault = /^[0-9]/.test(text)
    ? isPgn(Number(text))
      ? undefined
      : `${text} is no parameter group number. They lie between 59392 and 131071.`
    : kindOf(text) !== 'malformed'
      ? undefined
      : text.length + SHORTEST_FRAME > LONGEST_SENTENCE
        ? `"${text.slice(0, 12)}..." has ${text.length} characters, and a whole NMEA 0183 sentence has ${LONGEST_SENTENCE} at most. Sentences are named by three capitals, such as RMC, or by P and the maker's letters.`
        : `"${text}" is no sentence formatter. NMEA 0183 sentences are named by three capitals, such as RMC, or by P and the maker's letters.`;
  return fault === undefined ? [] : [problem('type/value-range', fault, placeOf(node, property, index))];
}

const isPgn = (number: number): boolean => Number.isInteger(number) && number >= 59_392 && number <= 131_071;

// ---------------------------------------------------------------- counts

interface Bounds {
  readonly low: number;
  readonly high: number;
}

function rangeProblems(range: ast.PortRange): Problem[] {
  const first = Number(range.first);
  const last = Number(range.last ?? range.first);
  const at = (message: string): Problem[] => [problem('type/value-range', message, placeOf(range))];
  if (!Number.isInteger(first) || !Number.isInteger(last))
    return at('Ports are numbered by whole numbers: 1..5.');
  if (last < first)
    return at(`The range ${range.first}..${range.last ?? ''} is upside down: write the lower number first.`);
  const size = last - first + 1;
  if (size > LARGEST_PORT_RANGE)
    return [
      problem(
        'limit/port-range',
        `${range.first}..${range.last ?? ''} would be ${size.toLocaleString('en')} ports; at most ${LARGEST_PORT_RANGE} are read. Check the figure.`,
        placeOf(range),
      ),
    ];
  return [];
}

function counts(node: AstNode): Problem[] {
  const whole = (
    property: string,
    value: string | undefined,
    what: string,
    { low, high }: Bounds,
  ): Problem[] => {
    if (value === undefined) return [];
    const number = Number(value);
    return Number.isInteger(number) && number >= low && number <= high
      ? []
      : [
          problem(
            'type/value-range',
            `${what} is a whole number from ${low} to ${high.toLocaleString('en')}, this is ${value}.`,
            placeOf(node, property),
          ),
        ];
  };
  switch (node.$type) {
    case 'DeviceCount': {
      const { key, value } = node as ast.DeviceCount;
      return whole('value', value, key, key === 'instance' ? { low: 0, high: 252 } : { low: 1, high: 64 });
    }
    case 'CountProperty':
      return whole('value', (node as ast.CountProperty).value, 'ports', { low: 1, high: 64 });
    case 'PortCount': {
      const { key, value } = node as ast.PortCount;
      return whole('value', value, key, key === 'len' ? { low: 0, high: 255 } : { low: 1, high: 100 });
    }
    case 'SpareGoal':
      return whole('count', (node as ast.SpareGoal).count, 'spare', { low: 1, high: 256 });
    case 'TargetsProperty':
      return whole('value', (node as ast.TargetsProperty).value, 'targets', { low: 0, high: 10_000 });
    case 'PoeFeature':
      return whole('poeClass', (node as ast.PoeFeature).poeClass, 'a class (IEEE 802.3)', {
        low: 0,
        high: 8,
      });
    case 'BaudFeature': {
      const { baud } = node as ast.BaudFeature;
      if (baud === undefined || BAUD_RATES.includes(Number(baud))) return [];
      return [
        problem(
          'type/value-range',
          `${baud} is no rate of NMEA 0183. Write ${either(BAUD_RATES.map(String))}.`,
          placeOf(node, 'baud'),
        ),
      ];
    }
    default:
      return [];
  }
}
