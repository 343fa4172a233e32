import { EmptyFileSystem, URI } from 'langium';
import { describe, expect, it } from 'vitest';
import { format } from '../../src/language/formatting/format.js';
import { WireloftFormatter } from '../../src/language/formatting/formatter.js';
import { apply } from '../../src/language/formatting/edits.js';
import { createCoreServices } from '../../src/language/module.js';

const { Wireloft: services, shared } = createCoreServices(EmptyFileSystem);

/** Lines of a text, with the empty one after its last line end. */
const text = (...lines: string[]): string => [...lines, ''].join('\n');

function expectFormatted(from: string, to: string): void {
  expect(format(from, services)).toBe(to);
  expect(format(to, services)).toBe(to);
}

describe('the layout', () => {
  it('puts one statement on a line and its words one space apart', () => {
    expectFormatted('device   a:B at\nhelm device b:C', text('device a : B at helm', 'device b : C'));
    expectFormatted('link a . 1--hub .2', text('link a.1 -- hub.2'));
    expectFormatted(
      'feed a->b,c fuse 5.5A mrbf rated 58V',
      text('feed a -> b, c  fuse 5.5 A mrbf rated 58 V'),
    );
  });

  it('joins what the author broke where it fits, and keeps the breaks where it does not', () => {
    expectFormatted('need plotter,\n\n  bowScreen\nshow sonar', text('need plotter, bowScreen show sonar'));
    const long = `need ${'screen, '.repeat(12)}\n last show ${'signal, '.repeat(3)}sonar`;
    expect(format(long, services)).toBe(
      text(`need ${'screen, '.repeat(12).trim()}`, `    last show ${'signal, '.repeat(3)}sonar`),
    );
  });

  it('leaves a block on one line that was written so, while it fits', () => {
    expectFormatted(
      'model X:joint{price 45 USD length 3m}',
      text('model X : joint { price 45 USD  length 3 m }'),
    );
    expectFormatted(
      'view "A" on b{left:chart over radar right:c . d}',
      text('view "A" on b { left: chart over radar  right: c.d }'),
    );
    expectFormatted('backbone b{tee box{a drop 1m,b}}', text('backbone b { tee box { a drop 1 m, b } }'));
    expectFormatted('model X : joint {}', text('model X : joint { }'));
    const names = Array.from({ length: 20 }, (_, i) => `port${i}`).join(', ');
    expectFormatted(
      `model X : display { price 45 USD title "A" port ${names} : ethernet }`,
      text('model X : display {', '  price 45 USD', '  title "A"', `  port ${names} : ethernet`, '}'),
    );
  });

  it('gives each property a line in a block of several, but keeps together what the author put on one', () => {
    expectFormatted(
      'model X : display { title "A"\n part "B" price 1 USD\n\n\n  note "C" }',
      text('model X : display {', '  title "A"', '  part "B"  price 1 USD', '', '  note "C"', '}'),
    );
    expectFormatted(
      'backbone b {\ntee box { a drop 1 m,\n b } span 1m tee c drop 2m\n}',
      text(
        'backbone b {',
        '  tee box {',
        '    a drop 1 m,',
        '    b',
        '  }',
        '  span 1 m  tee c drop 2 m',
        '}',
      ),
    );
  });

  it('aligns the columns of neighbours of one kind', () => {
    expectFormatted(
      text(
        'zone bow exposed aft 0.8 m',
        'zone engines machinery diesel',
        'device a : Long at bow',
        'device long : A at bow',
        '',
        'device b : C at bow',
      ),
      text(
        'zone bow      exposed   aft 0.8 m',
        'zone engines  machinery diesel',
        'device a    : Long at bow',
        'device long : A    at bow',
        '',
        'device b : C at bow',
      ),
    );
    expectFormatted(
      text(
        'run a -- helm 5.5m conduit 3cm',
        'run mast -- b 2m',
        'feed a -> bb fuse 5 A wire 2 mm2',
        'feed aa -> b',
        'feed bb -> c protected',
      ),
      text(
        'run a    -- helm  5.5 m  conduit 3 cm',
        'run mast -- b     2 m',
        'feed a  -> bb  fuse 5 A  wire 2 mm2',
        'feed aa -> b',
        'feed bb -> c   protected',
      ),
    );
  });

  it('keeps a line out of the columns that they would make too long', () => {
    const alone = `device ${'a'.repeat(60)} : ${'B'.repeat(45)} at z`;
    expectFormatted(
      text(alone, 'device b : C at z', `device bbb : ${'B'.repeat(50)} at z`, 'device c : D'),
      text(
        alone,
        `device b${' '.repeat(59)} : C${' '.repeat(44)} at z`,
        `device bbb : ${'B'.repeat(50)} at z`,
        `device c${' '.repeat(59)} : D`,
      ),
    );
  });

  it('keeps at most one blank line, and none at the ends of the file and of blocks', () => {
    expectFormatted(
      '\n\n\ndevice a : B\n\n\n\ndevice c : D {\n\nseries 2\n\n}\n\n\n',
      text('device a : B', '', 'device c : D {', '  series 2', '}'),
    );
    expectFormatted('', '');
    expectFormatted('  \n \n', '');
  });

  it('keeps line ends and a byte order mark', () => {
    expectFormatted('device a:B\r\ndevice b:C', 'device a : B\r\ndevice b : C\r\n');
    expectFormatted('\uFEFF  device a:B', '\uFEFFdevice a : B\n');
  });
});

describe('comments', () => {
  it('stay with their declarations', () => {
    expectFormatted(
      text(
        '// file',
        '',
        '   /// what a is',
        ' /* and */ device a : B // end of a',
        '/* c */',
        'device c : D /* end of c */ device e : F',
      ),
      text(
        '// file',
        '',
        '/// what a is',
        '/* and */ device a : B  // end of a',
        '/* c */',
        'device c : D /* end of c */',
        'device e : F',
      ),
    );
  });

  it('stay inside statements and blocks', () => {
    expectFormatted(
      text(
        'model X : display { // head',
        'title "A" // title',
        '// before the end',
        '} // end',
        'device a // name',
        ': /* model */ B',
      ),
      text(
        'model X : display {  // head',
        '  title "A"  // title',
        '  // before the end',
        '}  // end',
        'device a  // name',
        '    : /* model */ B',
      ),
    );
    expectFormatted(
      text('model X : display {', '/* only', ' a comment */ }'),
      text('model X : display {', '  /* only', ' a comment */', '}'),
    );
  });

  it('at the ends of neighbouring lines stand in one column, and go on below', () => {
    expectFormatted(
      text(
        'device a : B // one',
        '             // goes on',
        'device b : C',
        'device long : C // two',
        '',
        'device c : D // three',
      ),
      text(
        'device a    : B  // one',
        '                 // goes on',
        'device b    : C',
        'device long : C  // two',
        '',
        'device c : D  // three',
      ),
    );
  });
});

describe('syntax errors', () => {
  it('leave their own statement as it is and no other', () => {
    expect(format(text('zone a exposed', 'device   b :   at x', '  zone c   exposed'), services)).toBe(
      text('zone a exposed', 'device   b :   at x', 'zone c exposed'),
    );
    expect(
      format(
        text('zone  a exposed', 'model X : display {', '   title  "A"', '// in', 'zone b   exposed aft 1m'),
        services,
      ),
    ).toBe(text('zone a exposed', 'model X : display {', '   title  "A"', '// in', 'zone b exposed aft 1 m'));
    expect(format(text('zone  a exposed', ' ]  ;', 'zone  b exposed'), services)).toBe(
      text('zone a exposed', ' ]  ;', 'zone b exposed'),
    );
    expect(format('zone  a exposed ]\nzone  b exposed', services)).toBe(
      'zone  a exposed ]\nzone b exposed\n',
    );
    expect(format('device  a :', services)).toBe('device  a :\n');
  });

  it('never make it change a word', () => {
    for (const noise of ['"open', '/* open', '{{{', 'a-b', '12/24 V', '5,5 m', '}', '5..', '€', '::']) {
      const source = `zone  a exposed\n${noise}\nzone  b exposed\n`;
      expect(format(source, services).replace(/\s/g, ''), noise).toBe(source.replace(/\s/g, ''));
      expect(format(source, services), noise).toContain('zone a exposed');
    }
  });
});

describe('parts of a file', () => {
  const source = text(
    'zone  a exposed',
    'zone  bb exposed',
    'zone  c exposed',
    'model X : display {',
    'title  "A"',
    '  }',
  );
  const document = () =>
    shared.workspace.LangiumDocumentFactory.fromString(source, URI.parse('file:///a.loft'));
  const formatter = new WireloftFormatter(services);
  const options = { tabSize: 2, insertSpaces: true };
  const textDocument = { uri: 'file:///a.loft' };

  function edited(edits: ReturnType<WireloftFormatter['formatDocument']>): string {
    const { textDocument } = document();
    return apply(
      source,
      edits.map(({ range, newText }) => ({
        start: textDocument.offsetAt(range.start),
        end: textDocument.offsetAt(range.end),
        text: newText,
      })),
    );
  }

  it('are the only ones changed', () => {
    const range = { start: { line: 1, character: 3 }, end: { line: 2, character: 0 } };
    expect(edited(formatter.formatDocumentRange(document(), { textDocument, options, range }))).toBe(
      source.replace('zone  bb exposed', 'zone bb  exposed'),
    );
    expect(edited(formatter.formatDocument(document(), { textDocument, options }))).toBe(
      format(source, services),
    );
  });

  it('are the line left and the statement closed, while typing', () => {
    const typed = (line: number, ch: string) =>
      edited(
        formatter.formatDocumentOnType(document(), {
          textDocument,
          options,
          ch,
          position: { line, character: 0 },
        }),
      );
    expect(typed(1, '\n')).toBe(source.replace('zone  a exposed', 'zone a   exposed'));
    expect(typed(5, '}')).toBe(source.replace('title  "A"\n  }', '  title "A"\n}'));
    expect(typed(0, '\n')).toBe(source);
  });
});
