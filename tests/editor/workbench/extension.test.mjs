/**
 * The packaged extension as a person meets it. Each step works on what the steps before it left, on a copy of the
 * examples.
 */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe } from 'node:test';
import { startWorkbench } from './launch.mjs';
import { project } from './paths.mjs';
import { leastContrast } from './contrast.mjs';
import { id, stepsOn, vsix } from './steps.mjs';
import { moment, patience } from './workbench.mjs';

const ways = [
  { name: 'a process of its own', pictures: 'process', settings: {}, processes: 1, rulePages: true },
  {
    name: 'a web worker',
    pictures: 'worker',
    settings: { 'remote.extensionKind': { [id]: ['web'] } },
    processes: 0,
    rulePages: false,
  },
];

/** What is chosen, its format, and the file. */
const exported = /** @type {const} */ ([
  ['PDF: the whole set', 'pdf', 'drawings.pdf'],
  ['PNG: Kittiwake: Network', 'png', 'network-1.png'],
]);

const drawings = mkdtempSync(join(tmpdir(), 'wireloft-drawings-'));
after(() => rmSync(drawings, { recursive: true }));

/**
 * A file of the drawing as `wireloft draw` writes it; drawn once.
 * @param {string} format
 * @param {string} name
 */
function byTerminal(format, name) {
  const folder = join(drawings, format);
  if (!existsSync(folder)) {
    const program = join(project, 'dist', 'cli', 'main.mjs');
    const boat = join('examples', 'kittiwake', 'kittiwake.loft');
    const words = ['draw', boat, '--out', folder, '--format', format];
    const drawn = spawnSync(process.execPath, [program, ...words], { cwd: project });
    assert.equal(drawn.status, 0, String(drawn.stderr));
  }
  return readFileSync(join(folder, name));
}

for (const way of ways) {
  describe(`with the server in ${way.name}`, () => {
    /** @type {import('./workbench.mjs').Workbench} */
    let bench;
    const { lineOf, goTo, step } = stepsOn(() => bench);

    before(async () => {
      bench = await startWorkbench({
        vsix,
        folder: join(project, 'examples'),
        pictures: join(project, 'out', 'editor', way.pictures),
        settings: way.settings,
      });
    });

    after(async () => {
      await bench?.stop();
    });

    step('opens a boat, coloured, with nothing wrong', async () => {
      await bench.open('kittiwake/kittiwake.loft');
      await bench.waitForServer();
      await bench.coloured('zone bow', 3);
      assert.equal(await bench.underlined(), 0);
      await bench.page
        .locator('.codelens-decoration', { hasText: /USD.*needs met/ })
        .first()
        .waitFor({ timeout: patience });
      assert.equal(bench.processesOf('server.cjs'), way.processes);
      await bench.picture('1-open');
    });

    step('underlines a fault while it is typed, and says what it is', async () => {
      await bench.writeBelow(lineOf(/^link bowScreen/), 'link liveHead -- nowhere.head');
      await bench.page.keyboard.press('Escape');
      await bench.page.locator('.squiggly-error').first().waitFor({ timeout: patience });
      await bench.page.keyboard.press('ArrowLeft');
      for (let i = 0; i < 7; i++) await bench.page.keyboard.press('ArrowLeft');
      const said = await bench.hover();
      assert.match(said, /no device nowhere/);
      assert.match(said, /type\/unknown-name/);
      await bench.picture('2-fault');
      if (way.rulePages) {
        await bench.followInHover('type/unknown-name');
        await bench.tab('unknown-name.md');
        await bench.command('View: Close Editor');
        await bench.tab('kittiwake.loft');
      }
      await bench.undoAll();
      await bench.page.locator('.squiggly-error').first().waitFor({ state: 'detached', timeout: patience });
    });

    step('repairs a name that is nearly right', async () => {
      await bench.writeBelow(lineOf(/^device plotter/), 'device another : Tern8 at helmm');
      await bench.page.keyboard.press('Escape');
      await bench.page.locator('.squiggly-error').first().waitFor({ timeout: patience });
      await bench.page.keyboard.press('ArrowLeft');
      await bench.repair('helm');
      await bench.page
        .locator('.view-line', { hasText: /device\sanother\s:\sTern8\sat\shelm$/ })
        .waitFor({ timeout: patience });
      await bench.undoAll();
    });

    step('offers the free ports of a device after its dot', async () => {
      await bench.writeBelow(lineOf(/^link bowScreen/), 'link plotter -- hub.');
      const offered = await bench.suggestions();
      await bench.picture('3-completion');
      assert.ok(
        offered.some((it) => it.startsWith('4')),
        `offered: ${offered.join(' | ')}`,
      );
      assert.ok(
        offered.some((it) => it.startsWith('5')),
        `offered: ${offered.join(' | ')}`,
      );
      assert.ok(!offered.some((it) => it.startsWith('1') || it.startsWith('2') || it.startsWith('3')));
      await bench.page.keyboard.press('Escape');
      await bench.undoAll();
    });

    step('says on a screen what it shows', async () => {
      await goTo(/^device plotter/, 'plotter');
      const said = await bench.hover();
      await bench.picture('4-hover');
      assert.match(said, /Tern13/);
      assert.match(said, /sternSonar/);
    });

    step('goes from a model to its catalogue and from a word to the library', async () => {
      for (const [line, word, leadsTo] of /** @type {const} */ ([
        [/^device plotter/, 'Tern13', 'tern.loft'],
        [/^zone bow/, 'exposed', 'exposures.loft'],
      ]))
        await bench.again(async () => {
          await bench.open('kittiwake/kittiwake.loft');
          await goTo(line, word);
          await bench.page.keyboard.press('F12');
          await bench.tab(leadsTo, moment);
        });
      await bench.page.locator('.view-line', { hasText: 'exposure exposed' }).waitFor({ timeout: patience });
      await bench.picture('5-library');
      // It can be read, and not changed.
      const before = await bench.visibleText();
      await bench.page.keyboard.type('x');
      assert.equal(await bench.visibleText(), before);
      await bench.page.keyboard.press('Escape');
    });

    step('lays a text out', async () => {
      await bench.open('kittiwake/kittiwake.loft');
      await bench.writeBefore(lineOf(/^zone bow/), '      ');
      await bench.command('Format Document');
      await bench.page
        .locator('.view-line', { hasText: /^zone\s+bow/ })
        .first()
        .waitFor({ timeout: patience });
      await bench.undoAll();
    });

    step('draws the boat beside her text, and each leads to the other', async () => {
      await bench.open('kittiwake/kittiwake.loft');
      await goTo(/^device plotter/, 'plotter');
      await bench.command('Wireloft: Open Drawing to the Side');
      const drawing = await bench.drawing();
      const shown = (/** @type {string} */ origin) => drawing.locator(`#stage [data-origin="${origin}"]`);
      await shown('device plotter').and(drawing.locator('.at')).waitFor({ timeout: patience });
      await bench.picture('7-drawing');
      // A box leads to its line.
      await bench.again(async () => {
        await shown('device hub').locator('text').first().click({ timeout: moment });
        await bench.at(lineOf(/^device hub/));
      });
      await shown('device hub').and(drawing.locator('.at')).waitFor({ timeout: patience });
      // A source says whom it reaches.
      await bench.again(async () => {
        await bench.page.mouse.move(0, 0);
        await shown('device sternSonar').locator('text').first().hover({ timeout: moment });
        await drawing
          .locator('#said', { hasText: /sternSonar: shown on .*plotter/ })
          .waitFor({ timeout: moment });
      });
      await bench.picture('8-reach');
      // Enlarged, it stays so while the text changes.
      const width = () => drawing.locator('#stage svg').getAttribute('width');
      const fitted = Number(await width());
      await drawing.locator('#in').click({ timeout: patience });
      const enlarged = await width();
      assert.ok(Number(enlarged) > fitted);
      // The button has the keyboard now, and a file would open over the drawing.
      await bench.text();
      await bench.writeBelow(lineOf(/^device plotter/), 'device another : Tern8 at helm');
      await bench.page.keyboard.press('Escape');
      // Where the sheet has no room left at the helm, the new box stands on another.
      const pages = drawing.locator('#page');
      const another = shown('device another');
      const second = drawing.locator('#page option[value="network-2"]');
      await another.or(second).first().waitFor({ state: 'attached', timeout: patience });
      assert.equal(await width(), enlarged);
      // The cursor is in it, and leads to where it is shown.
      if ((await another.count()) === 0) {
        await drawing.locator('#go', { hasText: 'device another' }).click({ timeout: patience });
        await another.and(drawing.locator('.at')).waitFor({ timeout: patience });
        await pages.selectOption('network-1');
      }
      await bench.text();
      await bench.undoAll();
      await second.or(another).first().waitFor({ state: 'detached', timeout: patience });
      // Laid out anew, she is drawn as she would be by herself.
      await drawing.locator('#anew').click({ timeout: patience });
      await shown('device plotter').waitFor({ timeout: patience });
      // Another sheet, by its tab.
      await drawing.locator('[role="tab"]', { hasText: 'Power' }).click({ timeout: patience });
      await drawing.locator('#stage svg[aria-labelledby^="power-"]').waitFor({ timeout: patience });
      await drawing.locator('[role="tab"]', { hasText: 'Network' }).click({ timeout: patience });
      await drawing.locator('#stage svg[aria-labelledby^="network-"]').waitFor({ timeout: patience });
      await drawing.locator('#fit').click({ timeout: patience });
      for (const [name, theme, kind] of [
        ['light', 'Light Modern', 'vscode-light'],
        ['high-contrast', 'Dark High Contrast', 'vscode-high-contrast:not(.vscode-high-contrast-light)'],
        ['high-contrast-light', 'Light High Contrast', 'vscode-high-contrast-light'],
        ['dark', 'Dark Modern', 'vscode-dark'],
      ]) {
        await bench.theme(String(theme));
        await drawing.locator(`body.${String(kind)}`).waitFor({ timeout: patience });
        const { text, line } = await leastContrast(drawing);
        assert.ok(text >= 4.5, `${String(theme)}: a text has a contrast of ${String(text)}`);
        assert.ok(line >= 3, `${String(theme)}: a line has a contrast of ${String(line)}`);
        await bench.picture(`9-${String(name)}`);
        if (name === 'light') await bench.pictureOfEditors('panel');
      }
    });

    step('draws her with an option, when one is chosen, and without it again', async () => {
      const drawing = await bench.drawing();
      const named = drawing.locator('#stage svg text', { hasText: ', with bigScreen' });
      const options = drawing.locator('#options');
      for (const chosen of [true, false]) {
        await bench.tick(options, 'bigScreen');
        await named.first().waitFor({ state: chosen ? 'attached' : 'detached', timeout: patience });
        if (chosen) await bench.picture('11-option');
      }
      assert.equal(await options.getAttribute('aria-label'), 'Options');
    });

    step('writes the drawing as the terminal does, byte for byte', async () => {
      const drawing = await bench.drawing();
      for (const [what, format, name] of exported) {
        await bench.pick(drawing.locator('#export'), what);
        const own = await bench.saved(join('kittiwake', name));
        assert.ok(own.equals(byTerminal(format, name)), `${name} is another`);
      }
      await bench.picture('12-exported');
    });

    step('has the drawing again after the window was loaded anew', async () => {
      await bench.page.reload();
      await bench.page.waitForSelector('.monaco-workbench .explorer-viewlet', { timeout: patience });
      const drawing = await bench.drawing();
      await drawing.locator('#stage [data-origin="device plotter"]').waitFor({ timeout: patience });
      await bench.picture('10-again');
      await bench.command('View: Close All Editors');
      await bench.open('kittiwake/kittiwake.loft');
    });

    step('goes on after the server was started anew', async () => {
      await bench.command('Wireloft: Restart the Checks');
      await bench.writeBelow(lineOf(/^zone bow/), 'zone bow exposed');
      await bench.page.keyboard.press('Escape');
      await bench.page.locator('.squiggly-error').first().waitFor({ timeout: patience });
      await bench.picture('6-restarted');
      await bench.undoAll();
    });
  });
}

describe('in a folder that is not trusted', () => {
  const hostile = `<script>document.body.textContent = 'run'</script> ]]> <img src=x onerror=alert(1)>`;
  const odd = [
    'use "catalogue/tern.loft"',
    `vessel Odd "${hostile}" {}`,
    'zone helm sheltered',
    'device plotter : Tern13 at helm',
    'device second : Tern8 at helm',
    'link plotter -- second using SealedNet length 3 m',
    '',
  ];
  /** @type {import('./workbench.mjs').Workbench} */
  let bench;
  const { step } = stepsOn(() => bench);

  before(async () => {
    bench = await startWorkbench({
      vsix,
      folder: join(project, 'examples'),
      pictures: join(project, 'out', 'editor', 'restricted'),
      files: { 'odd.loft': odd.join('\n') },
      settings: {
        'security.workspace.trust.enabled': true,
        'security.workspace.trust.startupPrompt': 'never',
      },
    });
  });

  after(async () => {
    await bench?.stop();
  });

  step('works all the same, since it runs nothing from the folder', async () => {
    await bench.open('kittiwake/kittiwake.loft');
    await bench.page
      .locator('.statusbar-item', { hasText: 'Restricted Mode' })
      .waitFor({ timeout: patience });
    await bench.waitForServer();
    await bench.picture('1-open');
  });

  step('draws hostile texts as texts', async () => {
    await bench.open('odd.loft');
    await bench.command('Wireloft: Open Drawing to the Side');
    const drawing = await bench.drawing();
    // The title block cuts it, and its title says all of it.
    await drawing
      .locator('#stage svg text', { hasText: '<script>document' })
      .first()
      .waitFor({ state: 'attached', timeout: patience });
    assert.equal(await drawing.locator('#stage script, #stage img, #stage [onerror]').count(), 0);
    assert.equal(await drawing.locator('#export').count(), 1);
    await bench.picture('2-hostile');
  });
});
