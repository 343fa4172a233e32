/** The bundled library declares what the checks are built on, no more and no less, and its figures are in order. */
import { EmptyFileSystem } from 'langium';
import { describe, expect, it } from 'vitest';
import * as ast from '../src/language/generated/ast.js';
import { libraryFiles } from '../src/language/generated/library.js';
import { createCoreServices } from '../src/language/module.js';
import { MODEL_PROPERTIES, PORT_FEATURES } from '../src/language/typing/properties.js';
import { CLASSES, MEDIA } from '../src/vessel/model.js';

const { Wireloft } = createCoreServices(EmptyFileSystem);
const parsed = libraryFiles.map(({ name, text }) => ({
  name,
  result: Wireloft.parser.LangiumParser.parse<ast.Spec>(text),
}));
const statements = parsed.flatMap(({ result }) => result.value.statements);
const names = (of: readonly { readonly name: string }[]): string[] => of.map(({ name }) => name);
const wordsOf = (declaration: ast.ClassDecl | ast.MediumDecl): string[] =>
  declaration.properties.filter(ast.isWordsProperty).flatMap((property) => property.words);
const ascending = (values: readonly number[]): boolean =>
  values.every((value, index) => index === 0 || value > (values[index - 1] ?? Infinity));

describe('the bundled library', () => {
  it.each(parsed)('$name has no syntax error', ({ result }) => {
    expect([...result.lexerErrors, ...result.parserErrors].map((error) => error.message)).toEqual([]);
  });

  it('declares the classes and media of the vessel model, each once', () => {
    expect(names(statements.filter(ast.isClassDecl)).sort()).toEqual([...CLASSES].sort());
    expect(names(statements.filter(ast.isMediumDecl)).sort()).toEqual([...MEDIA].sort());
  });

  it('lists properties and features that there are', () => {
    for (const declaration of statements.filter(ast.isClassDecl))
      expect(
        wordsOf(declaration).filter((word) => !Object.hasOwn(MODEL_PROPERTIES, word)),
        declaration.name,
      ).toEqual([]);
    for (const declaration of statements.filter(ast.isMediumDecl))
      expect(
        wordsOf(declaration).filter((word) => !Object.hasOwn(PORT_FEATURES, word)),
        declaration.name,
      ).toEqual([]);
  });

  it('has a place for every property and feature', () => {
    const inClasses = new Set(statements.filter(ast.isClassDecl).flatMap(wordsOf));
    const always = ['title', 'part', 'price', 'note'];
    expect(
      Object.keys(MODEL_PROPERTIES).filter((word) => !inClasses.has(word) && !always.includes(word)),
    ).toEqual([]);
    const inMedia = new Set(statements.filter(ast.isMediumDecl).flatMap(wordsOf));
    expect(Object.keys(PORT_FEATURES).filter((word) => !inMedia.has(word))).toEqual([]);
  });

  it('names each thing once, and a signal after the one above it', () => {
    const named = statements.flatMap((statement) =>
      'name' in statement && statement.name !== undefined ? [`${statement.$type} ${statement.name}`] : [],
    );
    expect(named.filter((name, index) => named.indexOf(name) !== index)).toEqual([]);
    const signals = names(statements.filter(ast.isSignalDecl));
    const above = (name: string): string => name.slice(0, name.lastIndexOf('.'));
    expect(
      signals.filter((name, index) => name.includes('.') && !signals.slice(0, index).includes(above(name))),
    ).toEqual([]);
  });

  it('lists fuse ratings in ascending order', () => {
    const types = statements.filter(ast.isFuseTypeDecl);
    expect(names(types)).toEqual(['blade', 'largeblade', 'mrbf', 'anl', 'classt']);
    for (const type of types) {
      const ratings = type.properties.filter(ast.isRatingsProperty).flatMap((property) => property.values);
      expect(ascending(ratings.map(({ value }) => Number(value))), type.name).toBe(true);
    }
  });
});
