/* global SVGPathElement, DOMPoint */
/** The drawing beside the text in the hands of a person: mouse, touchpad, keyboard and screen reader. */
import assert from 'node:assert/strict';
import { join } from 'node:path';
import { after, before, describe } from 'node:test';
import { setTimeout as pause } from 'node:timers/promises';
import { startWorkbench } from './launch.mjs';
import { project } from './paths.mjs';
import { stepsOn, vsix } from './steps.mjs';
import { moment, patience } from './workbench.mjs';

describe('the drawing beside the text', () => {
  /** @type {import('./workbench.mjs').Workbench} */
  let bench;
  const { lineOf, goTo, step } = stepsOn(() => bench);

  before(async () => {
    bench = await startWorkbench({
      vsix,
      folder: join(project, 'examples'),
      pictures: join(project, 'out', 'editor', 'drawing'),
    });
  });

  after(async () => {
    await bench?.stop();
  });

  step('opens by its button', async () => {
    await bench.open('kittiwake/kittiwake.loft');
    await bench.waitForServer();
    await bench.page
      .locator('.editor-actions [aria-label="Open Drawing to the Side"]')
      .click({ timeout: patience });
    const drawing = await bench.drawing();
    await drawing.locator('#stage [data-origin="device plotter"]').waitFor({ timeout: patience });
    await bench.picture('1-open');
  });

  step(
    'is moved and enlarged by mouse, wheel and keys, and lets a screen reader name all of it',
    async () => {
      const drawing = await bench.drawing();
      const stage = drawing.locator('#stage');
      const svg = drawing.locator('#stage svg');
      const lies = () => svg.evaluate((one) => `${one.getAttribute('width') ?? ''} ${one.style.transform}`);
      const box = await stage.boundingBox();
      assert.ok(box);
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      const fitted = await lies();
      const { keyboard, mouse } = bench.page;
      /** @type {[string, () => Promise<void>][]} */
      const ways = [
        ['wheel', () => mouse.wheel(0, 60)],
        ['two fingers', () => mouse.wheel(60, 0)],
        [
          'pinch',
          async () => {
            await keyboard.down('Control');
            await mouse.wheel(0, -100);
            await keyboard.up('Control');
          },
        ],
        [
          'drag',
          async () => {
            await mouse.down();
            await mouse.move(x + 40, y + 30, { steps: 4 });
            await mouse.up();
          },
        ],
        ['arrow', () => stage.press('ArrowLeft')],
        ['plus', () => stage.press('+')],
        ['minus', () => stage.press('-')],
      ];
      for (const [name, way] of ways) {
        await mouse.move(x, y);
        const before = await lies();
        await way();
        for (const end = Date.now() + patience; (await lies()) === before; await pause(50))
          assert.ok(Date.now() < end, `${name} does nothing`);
      }
      await stage.press('0');
      assert.equal(await lies(), fitted);
      await stage.press('PageDown');
      await drawing.locator('#stage[aria-label^="Sheet 2 of "]').waitFor({ timeout: patience });
      await stage.press('PageUp');
      await drawing.locator('#stage[aria-label^="Sheet 1 of "]').waitFor({ timeout: patience });
      // From element to element, and to its line.
      await drawing.locator('#stage svg[aria-labelledby^="network-"]').waitFor({ timeout: patience });
      await stage.press('n');
      const focused = drawing.locator('#stage g:focus');
      const label = await focused.getAttribute('aria-label');
      assert.ok(label);
      await drawing.locator('#said', { hasText: label }).waitFor({ timeout: patience });
      await bench.again(async () => {
        await focused.press('Enter', { timeout: moment });
        await bench.page.locator('.statusbar-item', { hasText: 'selected)' }).waitFor({ timeout: moment });
      });
      // A cable leads to its line, and a port to what is written for it.
      const hub = lineOf(/^link plotter.net1/);
      // Beside the cable, where a hand that is not quite steady comes to rest.
      const beside = await drawing
        .locator('#stage [data-origin="link hub.1 -- plotter.net1"] > path')
        .first()
        .evaluate((path) => {
          if (!(path instanceof SVGPathElement)) throw new Error('It is no path.');
          const { x: left, y: top } = path.getPointAtLength(path.getTotalLength() * 0.1);
          const at = new DOMPoint(left, top + 0.7).matrixTransform(path.getScreenCTM() ?? undefined);
          const room = path.closest('#stage')?.getBoundingClientRect();
          return { x: at.x - (room?.x ?? 0), y: at.y - (room?.y ?? 0) };
        });
      const port = drawing.locator('#stage [data-origin="device plotter"] text:text-is("net1")');
      for (const click of [
        () => stage.click({ position: beside, timeout: moment }),
        () => port.click({ timeout: moment }),
      ])
        await bench.again(async () => {
          await goTo(/^device vhf/, 'vhf');
          await click();
          await bench.at(hub);
        });
      const names = await drawing
        .locator('#stage [role="graphics-object"]')
        .evaluateAll((all) => all.map((one) => one.getAttribute('aria-label') ?? ''));
      assert.ok(names.length > 10 && names.every((name) => name !== ''));
      for (const [role, name] of /** @type {const} */ ([
        ['tab', 'Network'],
        ['tabpanel', /^Sheet 1 of \d+: Network/],
        ['button', 'Zoom in'],
        ['button', 'Zoom out'],
        ['button', 'Show the whole sheet'],
        ['button', 'Lay Out Anew'],
        ['button', 'Options'],
        ['button', 'Export'],
      ]))
        assert.equal(await drawing.getByRole(role, { name }).count(), 1, `${role} ${String(name)}`);
    },
  );

  step('marks the screen that a source does not reach', async () => {
    const drawing = await bench.drawing();
    await bench.text();
    await bench.writeBefore(lineOf(/^link bowScreen/), '// ');
    await drawing
      .locator('#stage [data-origin^="link bowScreen"], #stage [data-origin$="-- bowScreen"]')
      .first()
      .waitFor({ state: 'detached', timeout: patience });
    await bench.again(async () => {
      await bench.page.mouse.move(0, 0);
      await drawing
        .locator('#stage [data-origin="device sternSonar"] text')
        .first()
        .hover({ timeout: moment });
      await drawing.locator('#said', { hasText: /not on bowScreen/ }).waitFor({ timeout: moment });
    });
    await drawing.locator('#stage .blind[data-origin="device bowScreen"]').waitFor({ timeout: patience });
    await bench.picture('14-blind');
    await bench.text();
    await bench.undoAll();
    await drawing.locator('#anew').click({ timeout: patience });
    await drawing
      .locator('#stage [data-origin^="link bowScreen"], #stage [data-origin$="-- bowScreen"]')
      .first()
      .waitFor({ state: 'attached', timeout: patience });
  });

  step('follows a wire from sheet to sheet, and chooses among the sheets of a kind', async () => {
    await bench.command('View: Close All Editors');
    await bench.open('motoryacht/razorbill.loft');
    await bench.command('Wireloft: Open Drawing to the Side');
    const drawing = await bench.drawing();
    const sheet = (/** @type {string} */ id) => drawing.locator(`#stage svg[aria-labelledby^="${id}-"]`);
    const flag = drawing.locator('#stage g[data-kind="link"] text', { hasText: /^\/\d/ }).first();
    for (const kind of ['Network', 'Power']) {
      await drawing.locator('[role="tab"]', { hasText: kind }).click({ timeout: patience });
      await sheet(`${kind.toLowerCase()}-1`).waitFor({ timeout: patience });
      if ((await flag.count()) > 0) break;
    }
    const from = await drawing.locator('#page').inputValue();
    await bench.again(async () => {
      if ((await sheet(from).count()) > 0) await flag.dblclick({ timeout: moment });
      await sheet(from).waitFor({ state: 'detached', timeout: moment });
    });
    await bench.picture('13-followed');
    await drawing.locator('#page').selectOption(from);
    await sheet(from).waitFor({ timeout: patience });
    await drawing.locator('#after').click({ timeout: patience });
    await sheet(from).waitFor({ state: 'detached', timeout: patience });
  });
});
