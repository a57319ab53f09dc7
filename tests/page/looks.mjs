// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// What a page looks like to the browser, as lists of what is wrong.

const allRules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/// Violations of axe-core's rules for WCAG 2.2 A and AA, and of its best practices; or of the rules named.
export async function axeViolations(page, axe, inside, rules = allRules) {
  await page.evaluate(axe);
  return page.evaluate(async ([within, runOnly]) => {
    const { violations, passes } = await window.axe.run(within || document, { runOnly });
    if (passes.length === 0) return ['axe looked at nothing'];
    return violations.map((each) => each.id + ': ' + each.nodes.slice(0, 3).map((node) => node.html.slice(0, 120)).join(' | '));
  }, [inside, rules]);
}

/// Pixels by which the content is wider than its window.
export function overflow(page, selector) {
  return page.evaluate((of) => {
    const root = of ? document.querySelector(of) : document.documentElement;
    return root.scrollWidth - root.clientWidth;
  }, selector);
}

/// Pairs of map buttons that touch, and buttons that leave the map.
export function buttonOverlaps(page) {
  return page.evaluate(() => {
    const frame = document.querySelector('.frame').getBoundingClientRect();
    const boxes = Array.from(document.querySelectorAll('.frame button'), (button) => [button.textContent, button.getBoundingClientRect()])
      .filter(([, box]) => box.width > 0);
    const wrong = [];
    if (boxes.length < 4) wrong.push('only ' + boxes.length + ' buttons');
    boxes.forEach(([name, a], at) => {
      if (a.width < 24 || a.height < 24) wrong.push(name + ' is small');
      if (a.left < frame.left || a.right > frame.right || a.top < frame.top || a.bottom > frame.bottom) wrong.push(name + ' leaves the map');
      for (const [other, b] of boxes.slice(0, at)) {
        if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom) wrong.push(name + ' on ' + other);
      }
    });
    return wrong;
  });
}

/// Text under 18 px and buttons under 48 px in the one-stop view; its map is a picture.
export function smallParts(page) {
  return page.evaluate(() => {
    const wrong = [];
    const walker = document.createTreeWalker(document.getElementById('one'), NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const parent = walker.currentNode.parentElement;
      if (walker.currentNode.textContent.trim() === '' || parent.closest('.frame, .unseen') || parent.offsetWidth === 0) continue;
      if (parseFloat(getComputedStyle(parent).fontSize) < 18) wrong.push(walker.currentNode.textContent.trim());
    }
    for (const button of document.querySelectorAll('#one > button, #one div:not(.over) > button')) {
      const box = button.getBoundingClientRect();
      if (button.closest('.frame') === null && (box.width < 48 || box.height < 48)) wrong.push('button ' + button.textContent);
    }
    return wrong;
  });
}

/// Tab from the top to the end: wrong: controls out of order or never reached; unseen: focus without a mark, or hidden.
export async function keyboardWalk(page) {
  const wanted = await page.evaluate(() => {
    const radios = new Set();
    const seen = (each) => each.checkVisibility({ visibilityProperty: true }) && !each.closest('[inert]');
    const controls = Array.from(document.querySelectorAll('a[href], button, input, summary, [tabindex="0"]')).filter(seen)
      .filter((each) => each.type !== 'radio' || (each.checked && !radios.has(each.name) && radios.add(each.name)));
    controls.forEach((each, at) => { each.dataset.order = at; });
    document.activeElement.blur();
    return controls.length;
  });
  const wrong = [], unseen = [];
  for (let at = 0; at < wanted; ++at) {
    await page.keyboard.press('Tab');
    const found = await page.evaluate(() => {
      const active = document.activeElement;
      const style = getComputedStyle(active);
      const box = active.getBoundingClientRect();
      const [x, y] = [(Math.max(0, box.left) + Math.min(innerWidth, box.right)) / 2, (Math.max(0, box.top) + Math.min(innerHeight, box.bottom)) / 2];
      const top = document.elementFromPoint(x, y);
      const marked = style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
      const name = active.tagName + ' ' + (active.id || active.textContent.trim().slice(0, 40));
      return { order: active.dataset.order, name, seen: marked && top !== null && (active.contains(top) || top.contains(active)) };
    });
    if (found.order !== String(at)) wrong.push(at + ' is ' + found.order + ', ' + found.name);
    if (!found.seen) unseen.push(found.name);
    if (wrong.length > 5) break;
  }
  return { wrong, unseen };
}
