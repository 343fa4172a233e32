/** The formatter with the language behind it. */
import { EmptyFileSystem, type ParseResult } from 'langium';
import { format } from '../../language/formatting/format.js';
import type { Spec } from '../../language/generated/ast.js';
import { createCoreServices, type Services } from '../../language/module.js';

let services: Services | undefined;

/** The canonical layout of a text, and whether the text is free of syntax errors. */
export function layOut(text: string): { readonly text: string; readonly sound: boolean } {
  services ??= createCoreServices(EmptyFileSystem).Wireloft;
  const parsed: ParseResult<Spec> = services.parser.LangiumParser.parse(text);
  const sound = parsed.parserErrors.length + parsed.lexerErrors.length === 0;
  return { text: format(text, services, { parsed }), sound };
}
