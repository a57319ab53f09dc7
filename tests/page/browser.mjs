// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// What the browser tests share: the program under test, Chromium, axe-core, and the count of what was held and missed.
// Without the browser's modules the test fails, it is not left out.
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, join } from 'node:path';

export const [program, source, work] = process.argv.slice(2);
export const title = basename(process.argv[1], '.mjs').replace('_', ' ');

const modules = join(source, 'build', 'browser', 'node_modules');
const executablePath = ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find(existsSync);
if (!existsSync(join(modules, 'playwright-core')) || !existsSync(join(modules, 'axe-core')) || !executablePath) {
  console.error(title + ': playwright-core and axe-core (in build/browser) or Chromium are missing; run ' +
                'scripts/dependencies --tests with a network');
  process.exit(1);
}
const require = createRequire(join(modules, 'here.js'));
export const axe = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
export const launched = () =>
  require('playwright-core').chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });

let checks = 0;
export const failures = [];
export function check(what, right, found = '') {
  checks += 1;
  if (!right) failures.push(what + (found === '' ? '' : ': ' + JSON.stringify(found)));
}
export const empty = (what, found) => check(what, found.length === 0, found);

export function finished() {
  for (const failure of failures) console.error('FAILED: ' + failure);
  console.log(title + ': ' + checks + ' checks, ' + failures.length + ' failed');
  process.exit(failures.length === 0 ? 0 : 1);
}
