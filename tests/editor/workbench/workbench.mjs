/* global fetch, getComputedStyle */
/**
 * A workbench for one test run: a server with the packaged extension installed, and a browser on it. Everything it
 * writes is below one scratch folder and goes with it.
 */
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { chromium } from 'playwright-core';
import { browserPath, nodePath, serverMain } from './paths.mjs';

/** Longest wait for anything to appear; a slow machine is no fault of the extension. */
export const patience = 45_000;

const settings = {
  'security.workspace.trust.enabled': false,
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
  'extensions.autoCheckUpdates': false,
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.colorTheme': 'Default Dark Modern',
  'window.commandCenter': false,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'chat.disableAIFeatures': true,
  'editor.minimap.enabled': false,
  'files.autoSave': 'off',
  'git.enabled': false,
};

/** A running workbench. */
export class Workbench {
  /**
   * @param {import('playwright-core').Browser} browser
   * @param {import('playwright-core').Page} page
   * @param {import('node:child_process').ChildProcess} server
   * @param {string} scratch
   * @param {string} pictures
   */
  constructor(browser, page, server, scratch, pictures) {
    this.browser = browser;
    this.page = page;
    this.server = server;
    this.scratch = scratch;
    this.pictures = pictures;
  }

  /** The folder that is open, a copy: a test may change files in it. */
  get folder() {
    return join(this.scratch, 'boats');
  }

  /**
   * Installs the extension, serves a copy of a folder, and opens it in a browser.
   * @param {{ vsix: string, folder: string, pictures: string, settings?: Record<string, unknown>, files?: Record<string, string> }} options
   *   `files`: more files of the copy, by name; the workbench may know nothing of one that is written later
   */
  static async start(options) {
    const scratch = mkdtempSync(join(tmpdir(), 'wireloft-workbench-'));
    const folder = join(scratch, 'boats');
    cpSync(options.folder, folder, { recursive: true });
    for (const [name, text] of Object.entries(options.files ?? {})) writeFileSync(join(folder, name), text);
    mkdirSync(options.pictures, { recursive: true });
    mkdirSync(join(scratch, 'user', 'User'), { recursive: true });
    writeFileSync(
      join(scratch, 'user', 'User', 'settings.json'),
      JSON.stringify({ ...settings, ...options.settings }),
    );
    const folders = ['extensions', 'user', 'server'].map((name) => join(scratch, name));
    const common = [
      '--accept-server-license-terms',
      ...['--extensions-dir', '--user-data-dir', '--server-data-dir'].flatMap((name, index) => [
        name,
        folders[index] ?? '',
      ]),
    ];
    const installed = spawnSync(nodePath, [serverMain, '--install-extension', options.vsix, ...common], {
      encoding: 'utf8',
    });
    if (installed.status !== 0)
      throw new Error(`The extension could not be installed:\n${installed.stdout}${installed.stderr}`);

    const port = await freePort();
    const server = spawn(
      nodePath,
      [serverMain, '--host', '127.0.0.1', '--port', String(port), '--without-connection-token', ...common],
      { stdio: ['ignore', 'pipe', 'pipe'] },
    );
    try {
      await answering(server, port);
      const browser = await chromium.launch({ executablePath: browserPath(), args: ['--no-sandbox'] });
      const page = await browser.newPage({ viewport: { width: 1280, height: 860 } });
      await page.goto(`http://127.0.0.1:${String(port)}/?folder=${encodeURIComponent(folder)}`);
      await page.waitForSelector('.monaco-workbench .explorer-viewlet', { timeout: patience });
      return new Workbench(browser, page, server, scratch, options.pictures);
    } catch (error) {
      server.kill();
      throw error;
    }
  }

  async stop() {
    await this.browser.close();
    this.server.kill();
    rmSync(this.scratch, { recursive: true, force: true });
  }

  /** @param {string} name */
  async picture(name) {
    await this.page.screenshot({ path: join(this.pictures, `${name}.png`) });
  }

  /**
   * The editors alone, as README.md shows them.
   * @param {string} name
   */
  async pictureOfEditors(name) {
    await this.command('View: Close Primary Side Bar');
    await this.page.locator('.explorer-viewlet').waitFor({ state: 'hidden', timeout: patience });
    await pause(500); // The sheet is fitted to its new room.
    await this.page
      .locator('.part.editor')
      .screenshot({ path: join(this.pictures, `${name}.png`), animations: 'disabled' });
    await this.command('View: Focus into Primary Side Bar');
    await this.page.locator('.explorer-viewlet').waitFor({ timeout: patience });
  }

  /**
   * Does something that may come to nothing on a busy machine, again and again until it comes to something.
   * @template T
   * @param {() => Promise<T>} attempt
   * @returns {Promise<T>}
   */
  async #again(attempt) {
    for (const deadline = Date.now() + patience; ;) {
      try {
        return await attempt();
      } catch (error) {
        if (Date.now() > deadline) throw error;
        await this.page.keyboard.press('Escape');
      }
    }
  }

  /**
   * Opens the list of a key, types into it, and does something with what it finds. Again where that does not come: a list loses what
   * is typed while it comes up, or has looked before there was anything.
   * @param {string} key
   * @param {string} typed
   * @param {(rows: import('playwright-core').Locator) => Promise<void>} take
   */
  async #inList(key, typed, take) {
    const input = this.page.locator('.quick-input-widget input[type="text"]');
    await this.#again(async () => {
      await this.page.keyboard.press(key);
      await input.waitFor({ timeout: 8_000 });
      await this.page.keyboard.insertText(typed);
      const all = await input.inputValue({ timeout: 8_000 });
      if (!all.endsWith(typed)) throw new Error(`The list was asked for ${all} in place of ${typed}.`);
      await take(this.page.locator('.quick-input-list .monaco-list-row'));
    });
  }

  /**
   * Runs a command of the palette by its title.
   * @param {string} title
   */
  async command(title) {
    await this.#inList('F1', title, (rows) =>
      rows.filter({ hasText: title }).first().click({ timeout: 8_000 }),
    );
  }

  /**
   * Opens a file below the folder.
   * @param {string} path
   */
  async open(path) {
    const name = path.slice(path.lastIndexOf('/') + 1);
    await this.#inList('Control+P', path, (rows) =>
      rows
        .and(this.page.locator(`[aria-label^="${name}"]`))
        .first()
        .click({ timeout: 8_000 }),
    );
    await this.tab(name);
    await this.page.waitForSelector('.editor-instance .view-lines .view-line', { timeout: patience });
  }

  /**
   * Puts the cursor at a place, both counted from one.
   * @param {number} line
   * @param {number} column
   */
  async go(line, column) {
    await this.#inList('Control+P', `:${String(line)}:${String(column)}`, () =>
      this.page.keyboard.press('Enter'),
    );
    await this.page.waitForSelector('.quick-input-widget', { state: 'hidden', timeout: patience });
  }

  /** The text of the editor's visible lines, with plain spaces. */
  async visibleText() {
    const lines = await this.page.locator('.editor-instance .view-lines .view-line').allInnerTexts();
    return lines.map(plain).join('\n');
  }

  /**
   * Waits until the first visible line that holds a text has so many colours: it is coloured after it is shown.
   * @param {string} text
   * @param {number} count
   */
  async coloured(text, count) {
    const spans = this.page.locator('.view-line', { hasText: text }).first().locator('span span');
    const end = Date.now() + patience;
    let colours = new Set();
    while (colours.size < count && Date.now() < end) {
      await pause(100);
      colours = new Set(await spans.evaluateAll((all) => all.map((span) => getComputedStyle(span).color)));
    }
    if (colours.size < count) throw new Error(`"${text}" has ${String(colours.size)} colours only.`);
  }

  /** Waits until a first answer of the server shows: a path in a `use` is a link only then. */
  async waitForServer() {
    await this.page.locator('.detected-link').first().waitFor({ timeout: patience });
  }

  /** Errors and warnings that are underlined in what the editor shows; other files of the folder may have theirs. */
  async underlined() {
    await pause(1_000); // Findings come after the first answer.
    return this.page.locator('.squiggly-error, .squiggly-warning').count();
  }

  /**
   * How many processes run a file of the installed extension.
   * @param {string} file
   */
  processesOf(file) {
    const commands = readdirSync('/proc')
      .filter((name) => /^\d+$/.test(name))
      .map((name) => {
        try {
          return readFileSync(`/proc/${name}/cmdline`, 'utf8');
        } catch {
          return ''; // It has ended since.
        }
      });
    return commands.filter((command) => command.includes(this.scratch) && command.includes(`/${file}`))
      .length;
  }

  /** What the hover at the cursor says. */
  async hover() {
    return this.#inHover(async (hover) => plain(await hover.innerText({ timeout: 2_000 })));
  }

  /**
   * Follows a link in the hover at the cursor.
   * @param {string} text
   */
  async followInHover(text) {
    await this.#inHover((hover) => hover.locator('a', { hasText: text }).click({ timeout: 2_000 }));
  }

  /**
   * Does something with the hover at the cursor. Asked for again when it is not there, or no longer: the
   * workbench shuts a hover when the findings under it are replaced, and on a busy machine that comes late.
   * @template T
   * @param {(hover: import('playwright-core').Locator) => Promise<T>} use
   * @returns {Promise<T>}
   */
  async #inHover(use) {
    const open = this.page.locator('.monaco-resizable-hover .monaco-hover:visible');
    return this.#again(async () => {
      await this.command('Show or Focus Hover');
      await open.locator('.hover-row').first().waitFor({ timeout: 5_000 });
      await pause(500); // It is put together from several answers, of which the server's is the last.
      return use(open.locator('.monaco-hover-content').first());
    });
  }

  /**
   * Takes the first of the repairs at the cursor that say a text.
   * @param {string} text
   */
  async repair(text) {
    const first = this.page.locator('.action-widget .monaco-list-row.action', { hasText: text }).first();
    // Asked for again where the findings came only after the key: then the workbench says that there is none, and waits no longer.
    await this.#again(async () => {
      await this.page.keyboard.press('Control+.');
      await first.click({ timeout: 4_000 });
    });
  }

  /** The page of the open drawing: a frame within a frame. */
  async drawing() {
    for (const end = Date.now() + patience; Date.now() < end; await pause(200))
      for (const frame of this.page.frames())
        if (
          (await frame
            .locator('#stage svg')
            .count()
            .catch(() => 0)) > 0
        )
          return frame;
    throw new Error('There is no drawing.');
  }

  /**
   * Takes a row of the list that is open.
   * @param {string} text
   */
  async pick(text) {
    await this.page
      .locator('.quick-input-list .monaco-list-row', { hasText: text })
      .first()
      .click({ timeout: patience });
  }

  /**
   * Sets the tick of a row of the list that is open, or takes it away, and shuts the list.
   * @param {string} text
   */
  async tick(text) {
    await this.pick(text);
    await this.page.keyboard.press('Enter');
    await this.page.waitForSelector('.quick-input-widget', { state: 'hidden', timeout: patience });
  }

  /**
   * Agrees to the place that the dialog offers for a file, and waits until the file is there.
   * @param {string} path below the folder
   */
  async saved(path) {
    const file = join(this.folder, path);
    const input = this.page.locator('.quick-input-widget input[type="text"]');
    for (const end = Date.now() + patience; !(await input.inputValue()).endsWith(path); await pause(100))
      if (Date.now() > end) throw new Error(`The dialog offers ${await input.inputValue()}.`);
    await input.press('Enter');
    for (const end = Date.now() + patience; Date.now() < end; await pause(100))
      // It is said when all of it is written.
      if ((await this.page.locator('.notification-toast', { hasText: `/${path}` }).count()) > 0)
        return readFileSync(file);
    throw new Error(`${file} was not written.`);
  }

  /**
   * Chooses a colour theme as a person does: a changed settings file may go unnoticed.
   * @param {string} name
   */
  async theme(name) {
    await this.command('Preferences: Color Theme');
    await this.page
      .locator('.quick-input-widget input[placeholder*="Color Theme"]')
      .waitFor({ timeout: patience });
    await this.page.keyboard.insertText(name);
    await this.page
      .locator('.quick-input-list .monaco-list-row', { hasText: name })
      .first()
      .click({ timeout: patience });
  }

  /** What the list of suggestions offers now. */
  async suggestions() {
    await this.page
      .locator('.suggest-widget.visible .monaco-list-row')
      .first()
      .waitFor({ timeout: patience });
    return this.page
      .locator('.suggest-widget.visible .monaco-list-row')
      .evaluateAll((rows) => rows.map((row) => row.getAttribute('aria-label') ?? ''));
  }

  /**
   * Waits until the tab of a file is the one in front.
   * @param {string} name
   */
  async tab(name) {
    await this.page.waitForSelector(`.tab.active[data-resource-name="${name}"]`, { timeout: patience });
  }

  /** Takes every change of the open file back. */
  async undoAll() {
    await this.command('File: Revert File');
    await this.page.waitForSelector('.tab.active:not(.dirty)', { timeout: patience });
  }
}

/** @param {string} text */
function plain(text) {
  return text.replaceAll('\u00a0', ' ');
}

/** @returns {Promise<number>} a port that nobody listens on now */
function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.on('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
}

/**
 * @param {import('node:child_process').ChildProcess} server
 * @param {number} port
 */
async function answering(server, port) {
  let output = '';
  server.stdout?.on('data', (chunk) => (output += String(chunk)));
  server.stderr?.on('data', (chunk) => (output += String(chunk)));
  const end = Date.now() + patience;
  while (Date.now() < end) {
    if (server.exitCode !== null) break;
    try {
      const answer = await fetch(`http://127.0.0.1:${String(port)}/version`);
      if (answer.ok) return;
    } catch {
      // Not listening yet.
    }
    await pause(200);
  }
  throw new Error(`The workbench does not answer:\n${output}`);
}
