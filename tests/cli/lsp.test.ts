import { describe, expect, it } from 'vitest';
import { folderWith, wireloft } from './program.js';

/** A message as the Language Server Protocol frames it. */
function framed(message: object): string {
  const text = JSON.stringify({ jsonrpc: '2.0', ...message });
  return `Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`;
}

describe('lsp --stdio', () => {
  it('answers an editor, and ends when it is told to', async () => {
    const input = [
      { id: 1, method: 'initialize', params: { processId: null, rootUri: null, capabilities: {} } },
      { method: 'initialized', params: {} },
      { id: 2, method: 'shutdown' },
      { method: 'exit' },
    ]
      .map(framed)
      .join('');
    const { status, out, error } = await wireloft(['lsp', '--stdio'], {
      folder: folderWith({}),
      input,
      open: true,
    });
    expect({ status, error }).toEqual({ status: 0, error: '' });
    const [, body = ''] =
      /^Content-Length: \d+\r\n\r\n(\{"jsonrpc":"2\.0","id":1,.*?\})(?:Content-Length|$)/s.exec(out) ?? [];
    const answer = JSON.parse(body) as { result: { capabilities: object } };
    expect(answer.result.capabilities).toMatchObject({ hoverProvider: true });
  });
});
