// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
//   node tests/page/page_test.mjs PROGRAM SOURCE WORK
//
// The page in a browser: PROGRAM makes plans of the sample lake in WORK, Chromium opens them. What is expected comes
// from WCAG 2.2 (axe-core's rules; success criteria named below) and from the table of the same page.
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

import { axe, check, empty, failures, finished, launched, program, source, work } from './browser.mjs';
import { axeViolations, buttonOverlaps, keyboardWalk, overflow, smallParts } from './looks.mjs';

const same = (what, found, wanted) => check(what, JSON.stringify(found) === JSON.stringify(wanted), { found, wanted });

function plan(name, lake, options) {
  const out = join(work, name);
  execFileSync(program, ['scout', lake, '--out', out, ...options], { stdio: ['ignore', 'ignore', 'inherit'] });
  const page = join(out, 'map.html');
  check(name + ': the page is under 1.5 MB', statSync(page).size < 1.5e6, statSync(page).size);
  return pathToFileURL(page).href;
}

// A page that reports every error and every request but the one for itself.
async function opened(browser, url, { width = 1280, height = 800, scheme = 'light', script = true } = {}) {
  const context = await browser.newContext({ viewport: { width, height }, colorScheme: scheme, javaScriptEnabled: script });
  const page = await context.newPage();
  const name = url.split('/').at(-2) + ' ' + width + ' ' + scheme;
  page.on('console', (message) => message.type() === 'error' && failures.push(name + ': console: ' + message.text()));
  page.on('pageerror', (error) => failures.push(name + ': error: ' + error.message));
  page.on('request', (request) => request.url() !== url && !request.url().startsWith('data:') &&
          failures.push(name + ': request for ' + request.url()));
  page.on('dialog', (dialog) => failures.push(name + ': dialog: ' + dialog.message()) && dialog.dismiss());
  await page.goto(url);
  return { page, name, close: () => context.close() };
}

const open = (page) => page.evaluate(() => document.getElementById('one').open);
const text = (page, selector) => page.locator(selector).innerText();

// The rows that the page shows, as a person reads them.
const rows = (page) => page.evaluate(() =>
  Array.from(document.querySelectorAll('section.phase:not(.away) tbody.spot-rows'), (row) => ({
    name: row.querySelector('a.number').textContent.split(',')[0],
    place: row.querySelector('[data-part="place"]').textContent,
    sounder: row.querySelector('[data-part="sounder"]').textContent,
    link: row.querySelector('a.number').id
  })));

async function looksAt(browser, url, width, height, scheme) {
  const { page, name, close } = await opened(browser, url, { width, height, scheme });
  const rules = scheme === 'dark' ? ['color-contrast'] : undefined;  // all else is the same in both
  empty(name + ': axe', await axeViolations(page, axe, null, rules));
  check(name + ': nothing runs off to the side (WCAG 1.4.10)', (await overflow(page)) <= 0, await overflow(page));
  empty(name + ': buttons on the map stand apart and inside (WCAG 2.5.8)', await buttonOverlaps(page));
  await page.click('#one-open');
  check(name + ': one stop opens', await open(page));
  empty(name + ': axe on one stop', await axeViolations(page, axe, '#one', rules));
  empty(name + ': 18 px text and 48 px buttons on one stop', await smallParts(page));
  check(name + ': one stop does not run off to the side', (await overflow(page, '#one')) <= 0, await overflow(page, '#one'));
  await page.screenshot({ path: join(work, 'one-' + width + '-' + scheme + '.png') });
  await page.keyboard.press('Escape');
  check(name + ': Escape closes it', !(await open(page)));
  await page.screenshot({ path: join(work, 'page-' + width + '-' + scheme + '.png') });
  await close();
}

// What the one-stop view shows.
const stopShown = (page) => page.evaluate(() => {
  const slot = (name) => document.querySelector('[data-slot="' + name + '"]').textContent;
  return { title: document.getElementById('one-title').textContent, place: slot('place'), sounder: slot('sounder'),
           said: document.getElementById('one-said').textContent,
           onMap: document.querySelector('#one-map .picked[data-away]')?.checkVisibility() ?? false };
});

async function stepsThroughAll(page, name) {
  const wanted = await rows(page);
  check(name + ': there are stops', wanted.length > 3, wanted.length);
  await page.focus('#one-open');
  await page.keyboard.press('Enter');
  for (const [at, row] of wanted.entries()) {
    const shown = await stopShown(page);
    const stop = name + ': stop ' + (at + 1);
    same(stop, shown.title, row.name);
    check(stop + ': its place', shown.place.startsWith(row.place), shown.place);
    same(stop + ': its sounder reading', shown.sounder, row.sounder);
    check(stop + ': its button is on its map', shown.onMap);
    if (at > 0) check(stop + ': it is told to a screen reader', shown.said.includes(row.name + ','), shown.said);
    if (at + 1 < wanted.length) await page.keyboard.press('ArrowRight');
  }
  await page.keyboard.press('ArrowRight');
  same(name + ': the end is told', await text(page, '#one-said'), 'This is the last stop');
  await page.click('[data-one="back"]');
  same(name + ': back by touch', await text(page, '#one-title'), wanted.at(-2).name);
  await page.click('[data-one="table"]');
  same(name + ': back in the table, at the row', await page.evaluate(() => document.activeElement.id), wanted.at(-2).link);
  await page.click('#one-open');
  same(name + ': it opens at the row chosen', await text(page, '#one-title'), wanted.at(-2).name);
  await page.click('[data-one="map"]');
  same(name + ': to the map', await page.evaluate(() => document.activeElement.id), wanted.at(-2).link.replace('link', 'mark'));
  check(name + ': the map is whole again', await page.evaluate(() => !document.querySelector('.frame').inert &&
        document.querySelector('.map-column .frame') !== null));
}

async function onePhase(browser, url) {
  const { page, name, close } = await opened(browser, url);
  const walk = await keyboardWalk(page);
  empty(name + ': every control by Tab, in order (WCAG 2.1.1, 2.4.3)', walk.wrong);
  empty(name + ': with visible focus, not hidden (WCAG 2.4.7, 2.4.11)', walk.unseen);
  await stepsThroughAll(page, name);
  await close();
}

async function allPhases(browser, url) {
  const { page, name, close } = await opened(browser, url, { width: 320, height: 640 });
  const phases = page.locator('input[name="phase"]');
  for (let at = 0; at < await phases.count(); ++at) {
    await phases.nth(at).check();
    if ((await rows(page)).length > 0) empty(name + ': buttons stand apart in phase ' + at, await buttonOverlaps(page));
  }
  await phases.first().check();
  const words = await page.locator('section.phase').evaluateAll((parts) => parts.map((part) => part.textContent).join(' '));
  check(name + ': sentences name spots as their buttons do', /[Ss]pots? [A-Z]\d/.test(words) && !/[Ss]pots? \d/.test(words),
        words.match(/[Ss]pots? \d.{0,30}/));
  const first = (await rows(page))[0]?.name;
  await page.focus('input[name="phase"]:checked');
  await page.keyboard.press('ArrowRight');
  let second = await rows(page);
  while (second.length === 0) {
    await page.keyboard.press('ArrowRight');
    second = await rows(page);
  }
  check(name + ': the switch shows another phase', second[0].name !== first, second[0].name);
  await stepsThroughAll(page, name);
  await close();
}

async function atStop(browser, url) {
  const { page, name, close } = await opened(browser, url, { width: 320, height: 640 });
  empty(name + ': axe', await axeViolations(page, axe));
  check(name + ': the stop is told at the top', (await text(page, '.fixed')).includes('Stop'));
  check(name + ': no stops to step through', !(await page.locator('#one-open').isVisible()));
  await close();
}

async function withoutScript(browser, url) {
  const { page, name, close } = await opened(browser, url, { width: 320, height: 640, script: false });
  check(name + ', no script: no button that does nothing', !(await page.locator('#one-open').isVisible()));
  for (const part of ['sounder', 'cast', 'place', 'lure', 'reason']) {
    check(name + ', no script: the table holds ' + part,
          await page.locator('tbody.spot-rows [data-part="' + part + '"]').first().isVisible());
  }
  await close();
}

async function unitsAndFiles(browser, url) {
  const { page, name, close } = await opened(browser, url);
  const sounder = page.locator('[data-part="sounder"]').first();
  const contour = page.locator('.depth:visible').first();
  const [metres, depth] = [await sounder.innerText(), await contour.innerText()];
  check(name + ': opens in the unit of the plan', /^[0-9.]+ m \([0-9]+ ft\)$/.test(metres), metres);
  await page.check('input[name="units"][value="ft"]');
  same(name + ': the switch turns the reading round', await sounder.innerText(), metres.replace(/(.*) \((.*)\)/, '$2 ($1)'));
  check(name + ': and draws contours in feet', await page.locator('.depth.in-ft:visible').count() > 3 &&
        await page.locator('.depth.in-m:visible').count() === 0, depth);
  await page.click('#one-open');
  check(name + ': one stop keeps to feet', /^[0-9]+ ft \(/.test(await page.locator('[data-slot="sounder"]').innerText()));
  await page.keyboard.press('Escape');
  for (const link of await page.locator('a[download]').all()) {
    const [saved] = await Promise.all([page.waitForEvent('download'), link.click()]);
    const inFolder = readFileSync(new URL(saved.suggestedFilename(), url));
    check(name + ': saves ' + saved.suggestedFilename() + ' as it stands in the folder',
          readFileSync(await saved.path()).equals(inFolder) && inFolder.length > 1000);
  }
  same(name + ': two files to save', await page.locator('a[download]').count(), 2);
  await close();
}

// What is chosen is what is printed: map, table, cautions, and not what only a screen can do.
async function onPaper(browser, url) {
  const { page, name, close } = await opened(browser, url, { width: 800, height: 1000 });
  await page.emulateMedia({ media: 'print' });
  const shown = await rows(page);
  for (const row of shown) check(name + ', printed: ' + row.name, await page.locator('#' + row.link).isVisible());
  check(name + ', printed: cautions and map', await page.locator('.cautions').isVisible() && await page.locator('.frame').isVisible());
  check(name + ', printed: no buttons but those on the map', await page.locator('button:visible:not(.frame button)').count() === 0);
  check(name + ', printed: says that other phases are left out', await page.locator('.on-paper').isVisible());
  check(name + ', printed: nothing runs off', (await overflow(page)) <= 0, await overflow(page));
  await close();
}

async function advised(browser, url) {
  const { page, name, close } = await opened(browser, url, { width: 320, height: 640 });
  const reason = (await page.locator('.advisory li').first().textContent()).trim();
  await page.click('#one-open');
  check(name + ': the advisory is told on each stop', (await text(page, '#one')).includes(reason), reason);
  check(name + ': and stays at the top', (await text(page, '#one-fixed')).includes('Caution'));
  await page.click('#one-fixed a');
  check(name + ': its link goes to the whole of it', await page.locator('#advisory').isVisible() && !(await open(page)));
  await close();
}

// The sample lake with names from outside that are markup where they are not escaped.
function hostileLake(lake) {
  const folder = join(work, 'hostile-lake');
  cpSync(join(lake, '..'), folder, { recursive: true });
  const nasty = (times) => 'name = "</script><script>alert(' + times + ')</script><img src=x onerror=alert(' + times + ')>"';
  let times = 0;
  const words = readFileSync(lake, 'utf8').replace(/^name = .*$/gm, () => nasty(++times));
  check('a hostile lake with three names', times === 3, times);
  const file = join(folder, 'hostile.toml');
  writeFileSync(file, words);
  return file;
}

async function hostile(browser, url) {
  const { page, name, close } = await opened(browser, url);
  check(name + ': the name is text', (await text(page, 'h1')).startsWith('</script><script>alert(1)'), await text(page, 'h1'));
  await page.click('#one-open');
  await page.click('[data-one="next"]');
  same(name + ': and no element', await page.locator('img').count(), 0);
  await close();
}

// The sample lake with 200 pieces of wood of 100 vertices each, which take up much of its middle.
function crowdedLake(lake) {
  const folder = join(work, 'crowded-lake');
  cpSync(join(lake, '..'), folder, { recursive: true });
  const features = Array.from({ length: 200 }, (_, i) => {
    const [lon, lat] = [-40.006 + 0.0008 * (i % 20), 45.4955 + 0.0008 * Math.floor(i / 20)];
    const coordinates = Array.from({ length: 100 }, (__, k) => [
      lon + 0.00035 * Math.cos(k * 0.0628) * (1 + 0.1 * Math.sin(k * 0.9)), lat + 0.00025 * Math.sin(k * 0.0628)]);
    return { type: 'Feature', properties: {}, geometry: { type: 'LineString', coordinates } };
  });
  writeFileSync(join(folder, 'many.geojson'), JSON.stringify({ type: 'FeatureCollection', features }));
  const file = join(folder, 'crowded.toml');
  writeFileSync(file, readFileSync(lake, 'utf8') + '\n[[structure]]\nfile = "many.geojson"\nkind = "wood"\n');
  return file;
}

// Usable with 20,000 vertices of features: everything answers within the browser's own time limits.
async function crowded(browser, url) {
  const written = JSON.parse(readFileSync(join(work, 'crowded', 'features.geojson'), 'utf8')).features;
  const vertices = (part) => typeof part[0] === 'number' ? 1 : part.reduce((sum, each) => sum + vertices(each), 0);
  const all = written.reduce((sum, feature) => sum + vertices(feature.geometry.coordinates), 0);
  check('crowded: 20,000 vertices and more', all >= 20000, all);
  const { page, name, close } = await opened(browser, url);
  await page.getByRole('button', { name: 'Closer' }).first().click();
  await page.getByRole('button', { name: 'Whole lake' }).first().click();
  await stepsThroughAll(page, name);
  await close();
}

async function looks(browser, url) {
  for (const scheme of ['light', 'dark']) {
    for (const [width, height] of [[1280, 800], [768, 1024], [320, 640]]) await looksAt(browser, url, width, height, scheme);
  }
}

async function worked(browser) {
  await onePhase(browser, one);
  await allPhases(browser, all);
  await unitsAndFiles(browser, one);
  await onPaper(browser, all);
  await advised(browser, care);
  await atStop(browser, stop);
  await withoutScript(browser, all);
  await hostile(browser, named);
  await crowded(browser, many);
}

rmSync(work, { recursive: true, force: true });
mkdirSync(work, { recursive: true });
const lake = join(source, 'sample_rasters', 'ossilby.toml');
const one = plan('one-phase', lake, ['--water-temp', '66F', '--trend', 'rising']);
const all = plan('all-phases', lake, []);
const care = plan('care', lake, ['--water-temp', '73F', '--trend', 'rising']);
const named = plan('hostile', hostileLake(lake), ['--water-temp', '66F', '--trend', 'rising']);
const many = plan('crowded', crowdedLake(lake), ['--water-temp', '66F', '--trend', 'rising']);
const stop = plan('stop', lake, ['--water-temp', '82F', '--trend', 'rising']);
const browser = await launched();
try {
  await Promise.all([looks(browser, one), worked(browser)]);
} finally {
  await browser.close();
}
finished();
