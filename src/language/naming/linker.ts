/** Links statement by statement: Langium's linker waits for its turn at every node, and that costs more than finding the names. */
import {
  Cancellation,
  DefaultLinker,
  interruptAndCheck,
  type AstNode,
  type GenericAstNode,
  type LangiumDocument,
} from 'langium';
import { eachReference, walk } from '../parsing/walk.js';
import { specOf } from './facts.js';

export class WireloftLinker extends DefaultLinker {
  override async link(
    document: LangiumDocument,
    cancelToken = Cancellation.CancellationToken.None,
  ): Promise<void> {
    const link = (node: AstNode): void =>
      eachReference(node as GenericAstNode, (info) => {
        this.doLink(info, document);
      });
    for (const statement of specOf(document).statements) {
      await interruptAndCheck(cancelToken);
      walk(statement, link);
    }
  }
}
