/** Syntax errors in plain words: what was expected, what was found. */
import type { IParserErrorMessageProvider, IToken, TokenType } from 'chevrotain';

const names: Readonly<Record<string, string>> = {
  NAME: 'a name',
  ANYNAME: 'a name',
  ID: 'a word',
  STRING: 'a text in quotes',
  NUMBER: 'a number',
  AUGHT: 'a size such as 2/0',
  DATE: 'a date such as 2027-04-01',
  RULECODE: 'a rule such as cable/not-sealed',
  EOF: 'the end of the file',
};

/** `a name`, `":"`, `"at"`. */
function tokenName(type: TokenType): string {
  return names[type.name] ?? `"${type.name}"`;
}

function found(token: IToken): string {
  return token.tokenType.name === 'EOF' ? 'the end of the file' : `"${shorten(token.image)}"`;
}

const shorten = (text: string): string => (text.length > 40 ? `${text.slice(0, 37)}...` : text);

function list(types: readonly TokenType[]): string {
  const words = [...new Set(types.map(tokenName))];
  const shown = words.slice(0, 8);
  if (words.length > shown.length) return `${shown.join(', ')} or another of ${words.length}`;
  return shown.length < 2
    ? (shown[0] ?? 'something else')
    : `${shown.slice(0, -1).join(', ')} or ${shown[shown.length - 1] ?? ''}`;
}

const firsts = (paths: readonly (readonly TokenType[])[]): TokenType[] =>
  paths.flatMap((path) => (path[0] ? [path[0]] : []));

export class WireloftParserMessages implements IParserErrorMessageProvider {
  buildMismatchTokenMessage({ expected, actual }: { expected: TokenType; actual: IToken }): string {
    if (expected.name === 'EOF') return this.buildNotAllInputParsedMessage({ firstRedundant: actual });
    return `Expected ${tokenName(expected)}, found ${found(actual)}.`;
  }

  buildNotAllInputParsedMessage({ firstRedundant }: { firstRedundant: IToken }): string {
    if (firstRedundant.image === '}') return 'This "}" closes nothing.';
    return `Expected a declaration such as zone, device, link or model, found ${found(firstRedundant)}.`;
  }

  buildNoViableAltMessage({
    expectedPathsPerAlt,
    actual,
  }: {
    expectedPathsPerAlt: TokenType[][][];
    actual: IToken[];
  }): string {
    const token = actual[0];
    return `Expected ${list(expectedPathsPerAlt.flatMap(firsts))}, found ${token ? found(token) : 'the end of the file'}.`;
  }

  buildEarlyExitMessage({
    expectedIterationPaths,
    actual,
  }: {
    expectedIterationPaths: TokenType[][];
    actual: IToken[];
  }): string {
    const token = actual[0];
    return `Expected ${list(firsts(expectedIterationPaths))}, found ${token ? found(token) : 'the end of the file'}.`;
  }
}
