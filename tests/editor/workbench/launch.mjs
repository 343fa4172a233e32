/* global fetch */
/** Starts a workbench: a server with the packaged extension installed, and a browser on it, below one scratch folder. */
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { chromium } from 'playwright-core';
import { browserPath, nodePath, serverMain } from './paths.mjs';
import { patience, Workbench } from './workbench.mjs';

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

/**
 * Installs the extension, serves a copy of a folder, and opens it in a browser.
 * @param {{ vsix: string, folder: string, pictures: string, settings?: Record<string, unknown>, files?: Record<string, string> }} options
 *   `files`: more files of the copy, by name; the workbench may know nothing of one that is written later
 */
export async function startWorkbench(options) {
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
  /** @type {import('playwright-core').Browser | undefined} */
  let browser;
  try {
    await answering(server, port);
    browser = await chromium.launch({ executablePath: browserPath(), args: ['--no-sandbox'] });
    const page = await browser.newPage({ viewport: { width: 1280, height: 860 } });
    await page.goto(`http://127.0.0.1:${String(port)}/?folder=${encodeURIComponent(folder)}`, {
      timeout: patience,
    });
    await page.waitForSelector('.monaco-workbench .explorer-viewlet', { timeout: patience });
    return new Workbench(browser, page, server, scratch, options.pictures);
  } catch (error) {
    await browser?.close();
    server.kill();
    rmSync(scratch, { recursive: true, force: true });
    throw error;
  }
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
