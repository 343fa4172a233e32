import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import { FakeEditor } from '../support/editor.js';

const example = (path: string): string =>
  readFileSync(new URL(`../../examples/${path}`, import.meta.url), 'utf8');

const kittiwake = {
  'kittiwake/kittiwake.loft': example('kittiwake/kittiwake.loft'),
  'catalogue/tern.loft': example('catalogue/tern.loft'),
  'catalogue/general.loft': example('catalogue/general.loft'),
  'catalogue/power.loft': example('catalogue/power.loft'),
};

let editor: FakeEditor | undefined;
afterEach(() => editor?.stop());

describe('diagnostics', () => {
  it('come for a clean boat, with the version they belong to', async () => {
    editor = await FakeEditor.start(kittiwake);
    const found = await editor.open('kittiwake/kittiwake.loft');
    expect(found.filter((d) => d.severity === 1)).toEqual([]);
  });

  it('follow what is typed', async () => {
    editor = await FakeEditor.start(kittiwake);
    await editor.open('kittiwake/kittiwake.loft');
    const text = editor.text('kittiwake/kittiwake.loft');
    const broken = await editor.change(
      'kittiwake/kittiwake.loft',
      text.replace(/link sternSonar +-- plotter\.sonar/, 'link sternSonar -- bowScreen.sonar'),
    );
    expect(broken.map((d) => d.code)).toContain('sonar/host-grade');
    const again = await editor.change('kittiwake/kittiwake.loft', text);
    expect(again.map((d) => d.code)).not.toContain('sonar/host-grade');
  });
});
