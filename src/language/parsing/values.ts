import { DefaultValueConverter, type CstNode, type GrammarAST, type ValueType } from 'langium';

/** Turns a token's text into its value: strings lose quotes and escapes, names are normalised to NFC. */
export class WireloftValueConverter extends DefaultValueConverter {
  protected override runConverter(
    rule: GrammarAST.AbstractRule,
    input: string,
    _cstNode: CstNode,
  ): ValueType {
    if (rule.name === 'STRING') return unquote(input);
    return input.normalize('NFC');
  }
}

/** The text inside quotes; a string that is not closed ends with its line. */
function unquote(text: string): string {
  const inner = text.length > 1 && text.endsWith('"') ? text.slice(1, -1) : text.slice(1);
  return inner.replace(/\\(.)/g, '$1');
}

/** The shortest literal of a text: quotes and backslashes are escaped, line breaks become spaces. */
export function quote(text: string): string {
  return `"${text.replace(/[\r\n]+/g, ' ').replace(/["\\]/g, '\\$&')}"`;
}
