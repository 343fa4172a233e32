/* global getComputedStyle */
/** A workbench as a person uses it: lists, keys, the text and the drawing. Everything it writes goes with it. */
import { readFileSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

/** Longest wait for anything to appear; a slow machine is no fault of the extension. */
export const patience = 45_000;

/** Longest wait for what one click or key brings, before it is tried again. */
export const moment = 8_000;

/** A running workbench. */
export class Workbench {
  /**
   * @param {import('playwright-core').Browser} browser
   * @param {import('playwright-core').Page} page
   * @param {import('node:child_process').ChildProcess} server
   * @param {string} scratch the folder of all it writes
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
   * Does something that may come to nothing on a busy machine, again and again until it comes to something: a click falls
   * between two pictures of a list, a key comes before what listens to it. An attempt waits for what it brings.
   * @template T
   * @param {() => Promise<T>} attempt
   * @returns {Promise<T>}
   */
  async again(attempt) {
    for (const deadline = Date.now() + patience; ;) {
      try {
        return await attempt();
      } catch (error) {
        if (Date.now() > deadline) throw error;
        console.log(`Tried again: ${String(error).split('\n', 1)[0] ?? ''}`);
        await this.page.keyboard.press('Escape');
      }
    }
  }

  /**
   * Opens the list of a key, types into it, and clicks the first of its rows that match. Again where that does not come, or comes to
   * nothing: a list loses what is typed while it comes up, or has looked before there was anything.
   * @param {string} key
   * @param {string} typed
   * @param {(rows: import('playwright-core').Locator) => import('playwright-core').Locator} which
   * @param {() => Promise<void>} [brings] waits for what the row brings, where that can be told
   */
  async #inList(key, typed, which, brings) {
    const input = this.page.locator('.quick-input-widget:visible input[type="text"]');
    await this.again(async () => {
      await this.page.keyboard.press(key);
      await input.waitFor({ timeout: moment });
      await this.page.keyboard.insertText(typed);
      const all = await input.inputValue({ timeout: moment });
      if (!all.endsWith(typed)) throw new Error(`The list was asked for ${all} in place of ${typed}.`);
      await which(this.#rows).first().click({ timeout: moment });
      // It is shut, or another list has its place.
      const texts = () => input.evaluateAll((shown) => shown.map((one) => ('value' in one ? one.value : '')));
      const asked = async () => (await texts()).includes(all);
      for (const end = Date.now() + moment; await asked(); await pause(50))
        if (Date.now() > end) throw new Error(`The list stays open at ${all}.`);
      await brings?.();
    });
  }

  /** The rows of the list that is open. */
  get #rows() {
    return this.page.locator('.quick-input-list .monaco-list-row');
  }

  /** Waits until no list is open. */
  async #shut() {
    await this.page.waitForSelector('.quick-input-widget', { state: 'hidden', timeout: moment });
  }

  /**
   * Runs a command of the palette by its title.
   * @param {string} title
   */
  async command(title) {
    await this.#inList('F1', title, (rows) => rows.filter({ hasText: title }));
  }

  /**
   * Opens a file below the folder.
   * @param {string} path
   */
  async open(path) {
    const name = path.slice(path.lastIndexOf('/') + 1);
    await this.#inList(
      'Control+P',
      path,
      (rows) => rows.and(this.page.locator(`[aria-label^="${name}"]`)),
      () => this.tab(name, moment),
    );
    await this.page.waitForSelector('.editor-instance .view-lines .view-line', { timeout: patience });
  }

  /**
   * Puts the cursor at a place, both counted from one.
   * @param {number} line
   * @param {number} column
   */
  async go(line, column) {
    await this.#inList(
      'Control+P',
      `:${String(line)}:${String(column)}`,
      (rows) => rows.filter({ hasText: new RegExp(`\\bline ${String(line)}\\b`, 'i') }),
      () => this.at(line, column),
    );
  }

  /**
   * Waits until the cursor is in a line, and in a column where one is given.
   * @param {number} line
   * @param {number} [column]
   */
  async at(line, column) {
    const place = `Ln ${String(line)}, ${column === undefined ? '' : `Col ${String(column)}`}`;
    const says = new RegExp(`${place}${column === undefined ? '' : '(?!\\d)'}`);
    await this.page.locator('.statusbar-item', { hasText: says }).waitFor({ timeout: moment });
  }

  /**
   * Types a line below another.
   * @param {number} line
   * @param {string} text
   */
  async writeBelow(line, text) {
    await this.#write(line, text, ['End', 'Enter']);
  }

  /**
   * Types at the beginning of a line.
   * @param {number} line
   * @param {string} text
   */
  async writeBefore(line, text) {
    await this.#write(line, text, []);
  }

  /**
   * @param {number} line
   * @param {string} text
   * @param {readonly string[]} keys pressed before
   */
  async #write(line, text, keys) {
    const { keyboard } = this.page;
    const begins = new RegExp(`^${text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&').replaceAll(' ', '\\s')}`);
    await this.again(async () => {
      await this.go(line, 1);
      for (const key of keys) await keyboard.press(key);
      await keyboard.type(text);
      try {
        await this.page.locator('.view-line', { hasText: begins }).first().waitFor({ timeout: moment });
      } catch (error) {
        await this.undoAll();
        throw error;
      }
    });
  }

  /** Gives the keyboard back to the text, which stands in the first group of editors. */
  async text() {
    await this.again(async () => {
      await this.command('View: Focus First Editor Group');
      await this.page
        .locator('.editor-group-container.active .tab.active[data-resource-name$=".loft"]')
        .waitFor({ timeout: moment });
    });
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
    return this.again(async () => {
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
    await this.again(async () => {
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
   * Clicks what opens a list, and takes a row of it.
   * @param {import('playwright-core').Locator} opener
   * @param {string} text
   */
  async pick(opener, text) {
    await this.again(async () => {
      await opener.click({ timeout: moment });
      await this.#rows.filter({ hasText: text }).first().click({ timeout: moment });
    });
  }

  /**
   * Clicks what opens a list, sets the tick of a row of it or takes it away, and shuts the list.
   * @param {import('playwright-core').Locator} opener
   * @param {string} text
   */
  async tick(opener, text) {
    await this.pick(opener, text);
    await this.#enter();
  }

  /** Presses Enter until the list is shut: it does not hear while it is busy. */
  async #enter() {
    const open = this.page.locator('.quick-input-widget:visible');
    for (const end = Date.now() + patience; ;) {
      await this.page.keyboard.press('Enter');
      try {
        return await this.#shut();
      } catch (error) {
        if (Date.now() > end || (await open.count()) === 0) throw error;
      }
    }
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
    await input.focus();
    await this.#enter();
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
    await this.again(async () => {
      await this.command('Preferences: Color Theme');
      await this.page
        .locator('.quick-input-widget input[placeholder*="Color Theme"]')
        .waitFor({ timeout: moment });
      await this.page.keyboard.insertText(name);
      await this.#rows.filter({ hasText: name }).first().click({ timeout: moment });
      await this.#shut();
    });
  }

  /** What the list of suggestions offers now. */
  async suggestions() {
    const rows = this.page.locator('.suggest-widget.visible .monaco-list-row');
    for (const end = Date.now() + patience; ;)
      try {
        await rows.first().waitFor({ timeout: moment });
        break;
      } catch (error) {
        if (Date.now() > end) throw error;
        await this.page.keyboard.press('Control+Space');
      }
    return rows.evaluateAll((rows) => rows.map((row) => row.getAttribute('aria-label') ?? ''));
  }

  /**
   * Waits until the tab of a file is the one in front.
   * @param {string} name
   * @param {number} [timeout]
   */
  async tab(name, timeout = patience) {
    await this.page.waitForSelector(`.tab.active[data-resource-name="${name}"]`, { timeout });
  }

  /** Takes every change of the open file back. */
  async undoAll() {
    await this.again(async () => {
      await this.command('File: Revert File');
      await this.page.waitForSelector('.editor-group-container.active .tab.active:not(.dirty)', {
        timeout: moment,
      });
    });
  }
}

/** @param {string} text */
function plain(text) {
  return text.replaceAll('\u00a0', ' ');
}
