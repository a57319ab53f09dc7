// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
//   node tests/page/site_test.mjs PROGRAM SOURCE WORK
//
// A club's site in a browser: PROGRAM scouts the sample lake and publishes it into WORK, Chromium opens the pages from
// file:. What is expected comes from WCAG 2.2 (axe-core's rules; success criteria named below).
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

import { axe, check, empty, failures, finished, launched, program, source, work } from './browser.mjs';
import { axeViolations, keyboardWalk, overflow } from './looks.mjs';

const run = (...words) => execFileSync(program, words, { stdio: ['ignore', 'ignore', 'inherit'] });
const pageOf = (site, name) => pathToFileURL(join(work, site, name)).href;

// A page that reports every error and every request but the one for itself.
async function opened(browser, url, { width = 1280, height = 900, scheme = 'light', script = true } = {}) {
  const context = await browser.newContext({ viewport: { width, height }, colorScheme: scheme, javaScriptEnabled: script });
  const page = await context.newPage();
  const name = url.split('/').slice(-2).join('/') + ' ' + width + ' ' + scheme;
  let here = url;
  page.on('framenavigated', (frame) => { here = frame.url(); });
  page.on('console', (message) => message.type() === 'error' && failures.push(name + ': console: ' + message.text()));
  page.on('pageerror', (error) => failures.push(name + ': error: ' + error.message));
  page.on('request', (request) => !request.isNavigationRequest() && request.url() !== here &&
          failures.push(name + ': request for ' + request.url()));
  page.on('dialog', (dialog) => failures.push(name + ': dialog: ' + dialog.message()) && dialog.dismiss());
  await page.goto(url);
  return { page, name, close: () => context.close() };
}

// Marks on the map that cover another one, or leave it.
const covered = (page) => page.evaluate(() => {
  const map = document.querySelector('svg.map')?.getBoundingClientRect();
  const boxes = Array.from(document.querySelectorAll('svg.map .tag, svg.map .spot'), (mark) => mark.getBoundingClientRect());
  return boxes.flatMap((a, at) => [
    ...(a.left < map.left || a.right > map.right || a.top < map.top || a.bottom > map.bottom ? [at + ' leaves the map'] : []),
    ...boxes.slice(0, at).filter((b) => a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1)
      .map((b) => at + ' on ' + boxes.indexOf(b))
  ]);
});

async function looksAt(browser, url, shot) {
  for (const scheme of ['light', 'dark']) {
    for (const width of [1280, 768, 320]) {
      const { page, name, close } = await opened(browser, url, { width, scheme });
      empty(name + ': axe', await axeViolations(page, axe, null, scheme === 'dark' ? ['color-contrast'] : undefined));
      empty(name + ': marks stand apart', await covered(page));
      check(name + ': nothing runs off to the side (WCAG 1.4.10)', (await overflow(page)) <= 0, await overflow(page));
      await page.screenshot({ path: join(work, shot + '-' + width + '-' + scheme + '.png'), fullPage: true });
      if (scheme === 'light') {
        const walk = await keyboardWalk(page);
        empty(name + ': keyboard in order (WCAG 2.4.3)', walk.wrong);
        empty(name + ': focus is seen (WCAG 2.4.7, 2.4.11)', walk.unseen);
      }
      await close();
    }
  }
}

async function onPaper(browser, url, shot) {
  const { page, name, close } = await opened(browser, url, { width: 800, height: 1000 });
  await page.emulateMedia({ media: 'print' });
  check(name + ', printed: cautions', await page.locator('.cautions').isVisible());
  check(name + ', printed: nothing runs off', (await overflow(page)) <= 0, await overflow(page));
  check(name + ', printed: no search', await page.locator('.search:visible').count() === 0);
  await page.screenshot({ path: join(work, shot + '-print.png'), fullPage: true });
  await close();
}

async function searched(browser) {
  const { page, name, close } = await opened(browser, pageOf('site', 'index.html'));
  const shown = () => page.locator('.lake:visible').count();
  check(name + ': all lakes', await shown() === 3, await shown());
  await page.fill('#find', 'HERON');
  check(name + ': one is found', await shown() === 1, await shown());
  check(name + ': the count is told', (await page.locator('#found').innerText()) === '1 of 3', await page.locator('#found').innerText());
  await page.fill('#find', 'etang');
  check(name + ': found without its accent', await shown() === 1, await shown());
  await page.fill('#find', 'nowhere');
  check(name + ': none', await shown() === 0);
  await page.fill('#find', '');
  await page.click('text=Lake Ossilby');
  check(name + ': a link leads to the lake', (await page.locator('h1').innerText()) === 'Lake Ossilby');
  await page.click('text=All lakes');
  check(name + ': and back', (await page.locator('h1').innerText()) === 'Lakes of the club');
  await close();
}

async function withoutScript(browser) {
  const { page, name, close } = await opened(browser, pageOf('site', 'index.html'), { script: false });
  check(name + ', no script: all lakes', await page.locator('.lake:visible').count() === 3);
  check(name + ', no script: no field that does nothing', !(await page.locator('#find').isVisible()));
  await close();
}

// The sample lake under another name; the site must not care what a name holds.
function renamed(folder, name) {
  const copy = join(work, folder + '-lake');
  cpSync(join(source, 'sample_rasters'), copy, { recursive: true });
  const file = join(copy, 'ossilby.toml');
  writeFileSync(file, readFileSync(file, 'utf8').replace(/^name = "Lake Ossilby"$/m, () => 'name = ' + JSON.stringify(name)));
  return file;
}

rmSync(work, { recursive: true, force: true });
mkdirSync(work, { recursive: true });
const lake = join(source, 'sample_rasters', 'ossilby.toml');
const early = ['--water-temp', '66F', '--trend', 'rising', '--quiet'];
run('scout', lake, ...early, '--out', join(work, 'one'));
run('scout', renamed('two', 'Heron </script><script>alert(1)</script>'), '--water-temp', '82F', '--trend', 'rising', '--quiet', '--out', join(work, 'two'));
run('scout', renamed('three', '\u00c9tang des H\u00eatres'), '--quiet', '--out', join(work, 'three'));
run('publish', join(work, 'one'), join(work, 'two'), join(work, 'three'), '--quiet', '--site', join(work, 'site'));
run('publish', join(work, 'one'), '--exact', '--quiet', '--site', join(work, 'exact'));
const stopped = 'lakes/heron-script-script-alert-1-script.html';
const browser = await launched();
try {
  await looksAt(browser, pageOf('site', 'index.html'), 'index');
  await looksAt(browser, pageOf('site', 'lakes/lake-ossilby.html'), 'lake');
  await looksAt(browser, pageOf('site', stopped), 'stop');
  await looksAt(browser, pageOf('site', 'lakes/etang-des-hetres.html'), 'year');
  await looksAt(browser, pageOf('exact', 'lakes/lake-ossilby.html'), 'exact');
  await onPaper(browser, pageOf('site', 'lakes/lake-ossilby.html'), 'lake');
  await onPaper(browser, pageOf('site', 'index.html'), 'index');
  await searched(browser);
  await withoutScript(browser);
} finally {
  await browser.close();
}
finished();
